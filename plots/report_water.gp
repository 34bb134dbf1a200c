# SPDX-License-Identifier: GPL-3.0-or-later
# plots/report_water.gp - water and free air above, the least oxygen below, for a page.
unset label 1
unset label 2
set multiplot
set lmargin at screen 0.09
set rmargin at screen 0.97
set bmargin at screen 0.53
set tmargin at screen 0.875
set yrange [0:most]
set ytics 20
set key at screen 0.53,0.99 center top horizontal maxcols 2 samplen 2.6 textcolor rgb ink
set label 5 '%' at screen 0.085,0.9 right textcolor rgb ink
unset xlabel
full = 1
plot \
    $DAYS using 1:3 with linespoints lc rgb c_free_air dt d_free_air lw 2 pt p_free_air ps mark pi spacing title 'free air, of the volume', \
    $DAYS using 1:2 with linespoints lc rgb c_water dt d_water lw 3 pt p_water ps mark pi spacing title 'water, of the wet mass'
set bmargin at screen 0.075
set tmargin at screen 0.40
set yrange [0:oxygen_most]
set ytics 5
set key at screen 0.53,0.47 center top horizontal maxcols 2 samplen 2.6 textcolor rgb ink
set label 5 '%' at screen 0.085,0.425 right textcolor rgb ink
plot 5 with lines lc rgb ink lw 1 dt 5 title '5 %', \
    $DAYS using 1:4 with linespoints lc rgb c_oxygen dt d_oxygen lw 3 pt p_oxygen ps mark pi spacing title 'oxygen where it is least'
unset multiplot
