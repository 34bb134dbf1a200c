# SPDX-License-Identifier: GPL-3.0-or-later
# plots/work.gp - what work buys: minutes across, the chance of being ready in time upward.
set lmargin at screen 0.075
set rmargin at screen 0.96
set bmargin at screen 0.145
set tmargin at screen 0.87
set xrange [-0.03*most:most]
set yrange [-0.4:10.4]
set ytics 1
set xtics auto
unset key
set xlabel 'work in all, minutes of one person' textcolor rgb ink
set ylabel wanted textcolor rgb ink
set label 3 note at screen 0.075,0.02 left font small textcolor rgb ink
set label 4 asked at first most, first level right offset -0.5,0.6 boxed front textcolor rgb ink
do for [k=1:names] { if (SIDE[k] < 0) { set label 100+k NAME[k] at AT_X[k],AT_Y[k] right boxed front font small textcolor rgb ink } else { set label 100+k NAME[k] at AT_X[k],AT_Y[k] left boxed front font small textcolor rgb ink } }
plot level with lines lc rgb ink lw 1.2 dt 2 notitle, \
    $TRIED using 1:2 with points pt 7 ps 0.6*mark lc rgb '#888888' notitle, \
    $FRONT using 1:2 with steps lc rgb c_outside lw 2.5 notitle, \
    $FRONT every ::0::names-2 using 1:2 with points pt 5 ps 1.6*mark lc rgb c_outside notitle, \
    $BEST using 1:2:3:4 with yerrorbars pt 13 ps 3*mark lw 2.5 lc rgb c_middle notitle
