# SPDX-License-Identifier: GPL-3.0-or-later
# plots/temperature.gp - temperatures of each day; above them, the work done.
sheet = rows > 0 ? 0.875 - 0.034*rows : 0.875
set multiplot
if (band) { set label 3 "shaded: 8 in 10 possible piles" at screen 0.93,0.02 right font small textcolor rgb ink }
set lmargin at screen 0.075
set rmargin at screen 0.935
set bmargin at screen (legend ? 0.15 : 0.115)
set tmargin at screen sheet
set yrange [least:most]
set y2range [1.8*least+32:1.8*most+32]
set ytics 10
set y2tics 20
set ylabel 'mean of the day, °C' textcolor rgb ink
set y2label 'mean of the day, °F' textcolor rgb ink offset -0.8,0
if (legend) { set key bottom center at screen 0.5,0.005 horizontal textcolor rgb ink samplen 5 } else { unset key }
plot \
    $BAND using 1:2:3 with filledcurves fs transparent solid 0.18 noborder lc rgb c_middle notitle, \
    $TURNED using 1:(least):(0):(most-least) with vectors nohead lc rgb c_turn lw 1.2 dt d_turn notitle, \
    $WATERED using 1:(least):(0):(most-least) with vectors nohead lc rgb c_watering lw 1.2 dt d_watering notitle, \
    hot with lines lc rgb ink lw 1 dt 5 notitle, \
    $DAYS using 1:5 with linespoints lc rgb c_outside dt d_outside lw 1.8 pt p_outside ps mark pi spacing title 'outside air', \
    $DAYS using 1:4 with linespoints lc rgb c_hand_deep dt d_hand_deep lw 2 pt p_hand_deep ps mark pi spacing title 'a hand deep', \
    $DAYS using 1:3 with linespoints lc rgb c_deep_30cm dt d_deep_30cm lw 2 pt p_deep_30cm ps mark pi spacing title '30 cm in', \
    $DAYS using 1:2 with linespoints lc rgb c_middle dt d_middle lw 3 pt p_middle ps mark pi spacing title 'middle', \
    $NAMES using 1:2:3 with labels center boxed textcolor rgb ink notitle
unset label 1
unset label 2
unset label 3
if (rows > 0) {
    set bmargin at screen sheet + 0.012
    set tmargin at screen 0.895
    set yrange [0.5:rows+0.5]
    unset ylabel
    unset y2label
    unset y2tics
    unset xlabel
    unset xtics
    unset key
    set border 0
    set ytics scale 0
    eval set_rows
    plot $WORK using 1:2:3:5 with points pt variable lc rgb variable ps 1.2*mark notitle, \
         $WORK using 1:(strlen(stringcolumn(4)) ? $2 : NaN):4 with labels left boxed offset 0.9,0 font small textcolor rgb ink notitle, \
     $WORK using 1:(strlen(stringcolumn(6)) ? $2 : NaN):6 with labels right boxed offset -0.9,0 font small textcolor rgb ink notitle
}
unset multiplot
