# SPDX-License-Identifier: GPL-3.0-or-later
# plots/report_water.gp - water and free air above, the least oxygen below, for a page.
unset label 1
unset label 2
set multiplot
set lmargin at screen 0.09
set rmargin at screen 0.97
set bmargin at screen 0.56
set tmargin at screen 0.875
set yrange [0:most]
set ytics 20
unset key
set arrow 11 from screen 0.09,0.97 to screen 0.165,0.97 nohead lc rgb c_water dt d_water lw 3
set label 11 'water, of the wet mass' at screen 0.18,0.97 left textcolor rgb ink
set arrow 12 from screen 0.54,0.97 to screen 0.615,0.97 nohead lc rgb c_free_air dt d_free_air lw 2
set label 12 'free air, of the volume' at screen 0.63,0.97 left textcolor rgb ink
set arrow 13 from screen 0.09,0.447 to screen 0.165,0.447 nohead lc rgb c_oxygen dt d_oxygen lw 3
set label 13 'oxygen where it is least, of the pore air' at screen 0.18,0.447 left textcolor rgb ink
set label 5 '%' at screen 0.085,0.915 right textcolor rgb ink
unset xlabel
plot \
    $DAYS using 1:3 with linespoints lc rgb c_free_air dt d_free_air lw 2 pt p_free_air ps mark pi spacing notitle, \
    $DAYS using 1:2 with linespoints lc rgb c_water dt d_water lw 3 pt p_water ps mark pi spacing notitle
unset arrow 11
unset arrow 12
unset arrow 13
unset label 11
unset label 12
unset label 13
set bmargin at screen 0.075
set tmargin at screen 0.395
set yrange [0:oxygen_most]
set ytics 5
set label 5 '%' at screen 0.085,0.43 right textcolor rgb ink
plot 5 with lines lc rgb ink lw 1 dt 5 notitle, \
    $DAYS using 1:4 with linespoints lc rgb c_oxygen dt d_oxygen lw 3 pt p_oxygen ps mark pi spacing notitle
unset multiplot
