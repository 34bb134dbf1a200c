# SPDX-License-Identifier: GPL-3.0-or-later
# plots/report_temperature.gp - temperatures of each day for a page: medians, the middle's band,
# readings; the legend stands below.
unset label 1
unset label 2
set lmargin at screen 0.09
set rmargin at screen 0.90
set tmargin at screen 0.95
set bmargin at screen 0.235
set yrange [least:most]
set y2range [1.8*least+32:1.8*most+32]
set ytics 10
set y2tics 20
unset xlabel
set label 5 '°C' at screen 0.085,0.98 right textcolor rgb ink
set label 6 '°F' at screen 0.905,0.98 left textcolor rgb ink
set key at screen 0.52,0.165 center top horizontal maxcols 3 width -2 samplen 2.6 spacing 1.25 textcolor rgb ink
plot \
    $BAND using 1:2:3 with filledcurves fs transparent solid 0.2 noborder lc rgb c_middle title (band ? '8 in 10 piles' : ''), \
    hot with lines lc rgb ink lw 1 dt 5 title '55 °C', \
    $TURNED using 1:(least):(0):(most-least) with vectors nohead lc rgb c_turn lw 1.2 dt d_turn notitle, \
    keyentry with lines lc rgb c_turn lw 1.2 title (|$TURNED| > 1 ? 'turned' : ''), \
    $DAYS using 1:5 with linespoints lc rgb c_outside dt d_outside lw 1.6 pt p_outside ps 1.1*mark pi spacing title 'outside air', \
    $DAYS using 1:4 with linespoints lc rgb c_hand_deep dt d_hand_deep lw 1.8 pt p_hand_deep ps 1.1*mark pi spacing title 'a hand deep', \
    $DAYS using 1:3 with linespoints lc rgb c_deep_30cm dt d_deep_30cm lw 1.8 pt p_deep_30cm ps 1.1*mark pi spacing title '30 cm in', \
    $DAYS using 1:2 with linespoints lc rgb c_middle dt d_middle lw 3 pt p_middle ps 1.1*mark pi spacing title 'middle', \
    $READ using 1:2 with points pt 7 ps 2.6*mark lc rgb '#ffffff' notitle, \
    $READ using 1:2:4:3 with points pt variable ps 2.0*mark lc rgb variable notitle, \
    keyentry with points pt 7 ps 2*mark lc rgb '#666666' title (readings ? 'read by you' : '')
