# SPDX-License-Identifier: GPL-3.0-or-later
# plots/water.gp - water and free air above, the least oxygen below.
set multiplot
set lmargin at screen 0.075
set rmargin at screen 0.935
set bmargin at screen 0.53
set tmargin at screen 0.87
set yrange [0:most]
set ytics 20
unset key
if (legend) { set key at screen 0.935,0.882 right bottom horizontal textcolor rgb ink samplen 5 }
set ylabel 'share of the whole pile, %' textcolor rgb ink
set xtics format ''
set xlabel ' '
plot \
    $DAYS using 1:3 with linespoints lc rgb c_free_air dt d_free_air lw 2 pt p_free_air ps mark pi spacing title 'free air, of the volume', \
    $DAYS using 1:2 with linespoints lc rgb c_water dt d_water lw 3 pt p_water ps mark pi spacing title 'water, of the wet mass', \
    $NAMES using 1:2:3 with labels center boxed textcolor rgb ink notitle
unset label 1
unset label 2
set bmargin at screen 0.12
unset key
if (oxygen_legend) { set key at screen 0.935,0.462 right bottom horizontal textcolor rgb ink samplen 5 }
set tmargin at screen 0.45
set yrange [0:oxygen_most]
set ytics 5
set ylabel 'oxygen in the pores, % of the air' textcolor rgb ink
set xlabel 'date, and day since the pile was finished' offset 0,-1 textcolor rgb ink
plot 5 with lines lc rgb ink lw 1 dt 5 notitle, \
    $DAYS using 1:4 with linespoints lc rgb c_oxygen dt d_oxygen lw 3 pt p_oxygen ps mark pi spacing title 'oxygen where it is least', \
    $OXYGEN_NAMES using 1:2:3 with labels center boxed textcolor rgb ink notitle
unset multiplot
