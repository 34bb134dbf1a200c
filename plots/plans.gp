# SPDX-License-Identifier: GPL-3.0-or-later
# plots/plans.gp - plans side by side: the middle above; when each is ready, a row a plan, below.
# The rows are the legend of the lines too.
sheet = 0.105 + step*plans
set multiplot
set lmargin at screen 0.25
set rmargin at screen 0.915
set bmargin at screen sheet + 0.09
set tmargin at screen 0.875
unset key
set xlabel ' '
set yrange [least:most]
set y2range [1.8*least+32:1.8*most+32]
set ytics 10
set y2tics 20
set ylabel "middle of the pile,\nmedian of the day's means, °C" textcolor rgb ink
set y2label '°F' textcolor rgb ink offset -0.8,0
do for [k=1:plans] { if (ON_X[k] > 0) { set label 100+k SHORT[k] at ON_X[k],ON_Y[k] center boxed front textcolor rgb ink } }
plot hot with lines lc rgb ink lw 1 dt 5 notitle, \
    for [k=1:plans] $CURVES index (k-1) using 1:2 with lines lc rgb COLOUR[k] dt DASH[k] lw 2.2 notitle, \
    for [k=1:plans] $CURVES index (k-1) using 1:3 with points lc rgb COLOUR[k] pt MARK[k] ps 1.5*mark notitle
unset label
set bmargin at screen 0.105
set tmargin at screen sheet
set yrange [0.5:plans+0.5]
set border 1
unset y2tics
unset y2label
unset ylabel
unset ytics
set xtics font small
set xlabel 'date' offset 0,0.3 textcolor rgb ink
do for [k=1:plans] {
    row = plans + 1 - k
    set label 200+k NAME[k] at screen 0.07, first row left font small textcolor rgb ink
    set label 300+k WORK[k] at screen 0.985, first row right font small textcolor rgb ink
    set arrow 200+k from screen 0.012, first row to screen 0.062, first row nohead lc rgb COLOUR[k] dt DASH[k] lw 2.2
    set label 400+k '' at screen 0.037, first row point pt MARK[k] ps 1.5*mark lc rgb COLOUR[k]
}
set label 5 'plan' at screen 0.07,sheet + 0.022 left font small textcolor rgb ink
set label 6 ready at screen 0.25,sheet + 0.022 left font small textcolor rgb ink
set label 7 'work' at screen 0.985,sheet + 0.022 right font small textcolor rgb ink
set label 8 note at screen 0.012,0.02 left font small textcolor rgb ink
plot \
    $ROWS using (0.5*($2+$3)):1:2:3:($1-0.26):($1+0.26):8 with boxxyerror fs transparent solid 0.4 noborder lc rgb variable notitle, \
    $ROWS using 5:1:6:(0) with vectors head filled size screen 0.008,25 lc rgb ink lw 1.6 notitle, \
    $ROWS using 7:($1-0.5):(0):(1) with vectors nohead lc rgb ink lw 1.6 notitle, \
    $ROWS using 4:1 with points pt 5 ps 2.6*mark lc rgb '#ffffff' notitle, \
    $ROWS using 4:1:9 with points pt variable ps 2*mark lc rgb '#000000' notitle
unset multiplot
