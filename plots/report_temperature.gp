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
unset key
# the legend, by hand: a terminal's own guess of widths cuts it off
WORDS_T = "'middle' '30 cm in' 'a hand deep' 'outside air' '8 in 10 piles' '55 °C' 'turned' 'read by you'"
array HUE[8] = [c_middle, c_deep_30cm, c_hand_deep, c_outside, '#f7dccc', ink, c_turn, '#666666']
array DASH[8] = [d_middle, d_deep_30cm, d_hand_deep, d_outside, 1, 5, 1, 1]
array PT[8] = [p_middle, p_deep_30cm, p_hand_deep, p_outside, 0, 0, 0, 7]
array LW[8] = [3, 1.8, 1.8, 1.6, 14, 1, 1.2, 0]
do for [i=1:8] {
    if ((i != 5 || band) && (i != 7 || |$TURNED| > 1) && (i != 8 || readings)) {
        col = 0.03 + 0.33*((i-1)%3)
        row = 0.15 - 0.058*((i-1)/3)
        if (LW[i] > 0) { set arrow 100+i from screen col,row to screen col+0.075,row nohead lc rgb HUE[i] dt DASH[i] lw LW[i] }
        set label 100+i word(WORDS_T,i) at screen col+0.09,row left textcolor rgb ink
        if (PT[i] > 0) { set label 200+i '' at screen col+0.0375,row point pt PT[i] ps (i == 8 ? 2.0 : 1.1)*mark lc rgb HUE[i] }
    }
}
plot \
    $BAND using 1:2:3 with filledcurves fs transparent solid 0.2 noborder lc rgb c_middle notitle, \
    hot with lines lc rgb ink lw 1 dt 5 notitle, \
    $TURNED using 1:(least):(0):(most-least) with vectors nohead lc rgb c_turn lw 1.2 dt d_turn notitle, \
    $DAYS using 1:5 with linespoints lc rgb c_outside dt d_outside lw 1.6 pt p_outside ps 1.1*mark pi spacing notitle, \
    $DAYS using 1:4 with linespoints lc rgb c_hand_deep dt d_hand_deep lw 1.8 pt p_hand_deep ps 1.1*mark pi spacing notitle, \
    $DAYS using 1:3 with linespoints lc rgb c_deep_30cm dt d_deep_30cm lw 1.8 pt p_deep_30cm ps 1.1*mark pi spacing notitle, \
    $DAYS using 1:2 with linespoints lc rgb c_middle dt d_middle lw 3 pt p_middle ps 1.1*mark pi spacing notitle, \
    $READ using 1:2 with points pt 7 ps 2.6*mark lc rgb '#ffffff' notitle, \
    $READ using 1:2:4:3 with points pt variable ps 2.0*mark lc rgb variable notitle
