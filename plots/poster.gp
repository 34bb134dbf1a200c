# SPDX-License-Identifier: GPL-3.0-or-later
# plots/poster.gp - a season for a wall, A2 upright: words, course, cuts, where the heat went.
unset label 1
unset label 2
body = sprintf(',%g', least_type)
set palette defined (0 '#440154', 0.25 '#3b528b', 0.5 '#21918c', 0.75 '#5ec962', 1 '#fde725')
y(points) = 1.0 - points/1684.0
set multiplot
set tics font body
set label 10 name at screen 0.05,y(strlen(more_name) ? 76 : 88) left font sprintf('DejaVu Sans Bold,%g', name_type) textcolor rgb ink
set label 9 more_name at screen 0.05,y(118) left font sprintf('DejaVu Sans Bold,%g', name_type) textcolor rgb ink
set label 11 plan at screen 0.05,y(156) left font body textcolor rgb ink
do for [i=1:lines] { set label 20+i LINE[i] at screen 0.05,y(212 + AT[i]) left font body textcolor rgb ink }
under = 224 + AT[lines] + 40
# the cuts are as large as there is room; what a low pile leaves the course gets
fit = 0.19*wide/(right-left) < 175.0/top ? 0.19*wide/(right-left) : 175.0/top
w = fit*(right-left)/wide
h = fit*top/high
bar = h*1684.0 > 60 ? h : 60/1684.0
spare = 175 - bar*1684.0
set label 12 'middle of the pile, °C'.(readings ? '; dots: as read by you' : '') at screen 0.05,y(under + 14) left font body textcolor rgb c_middle
set label 13 'outside air' at screen 0.95,y(under + 14) right font body textcolor rgb c_outside
set label 14 'through the pile, '.temp at screen 0.05,y(1084 + spare) left font body textcolor rgb ink
set label 15 'how heat left' at screen 0.05,y(1354) left font body textcolor rgb ink
set label 16 foot at screen 0.05,y(1656) left font body textcolor rgb ink
# the course
set lmargin at screen 0.1
set rmargin at screen 0.95
set tmargin at screen y(under + 46)
set bmargin at screen y(994 + spare)
set yrange [least:most]
set ytics 20
unset xlabel
unset key
eval dated
set xtics offset 0,-0.3
set label 41 '55 °C' at graph 0.99, first hot+1 right offset 0,0.6 font body textcolor rgb ink
plot $BAND using 1:2:3 with filledcurves fs solid 0.22 noborder lc rgb c_middle, \
    hot with lines lc rgb ink lw 2 dt 5, \
    $DAYS using 1:5 with lines lc rgb c_outside lw 4 dt 3, \
    $DAYS using 1:2 with lines lc rgb c_middle lw 6, \
    $READ using ($4 == mark_middle ? $1 : 1/0):2 with points pt 7 ps 3 lc rgb '#ffffff', \
    $READ using ($4 == mark_middle ? $1 : 1/0):2:4:3 with points pt variable ps 2.4 lc rgb variable
do for [i=1:41] { unset label i }
# the cuts
unset grid
unset xtics
unset ytics
set border 0
set xrange [left:right]
set yrange [0:top]
set cbrange [LEAST[1]:MOST[1]]
set cbtics (LEAST[1], MOST[1]) font body
lap = 0.7*(right-left)/(wide*w)
do for [k=1:columns] {
    west = 0.05 + (k-1)*0.205 + 0.5*(0.19-w)
    set lmargin at screen west
    set rmargin at screen west + w
    set bmargin at screen y(1282)
    set tmargin at screen y(1282) + h
    set label 4 word(HEAD[k],3).' '.word(HEAD[k],4) at screen west + 0.5*w,y(1306) center font body textcolor rgb ink
    if (k == columns) { set colorbox user origin screen 0.885,y(1282) size screen 0.02,bar noborder } else { unset colorbox }
    plot $CELLS index (k-1) using (0.5*($1+$2)):(0.5*($3+$4)):1:($2+lap):3:($4+lap):5 with boxxyerror lc palette
    unset label 4
}
unset colorbox
# the heat
set lmargin at screen 0.28
set rmargin at screen 0.72
set tmargin at screen y(1376)
set bmargin at screen y(1618)
set xrange [0:SHARE[1] > 0 ? SHARE[1] : 1]
set yrange [0.5:ways+0.5]
do for [i=1:ways] {
    set label 50+i WAY[i] at screen 0.265,first ways+1-i right font body textcolor rgb ink
    set label 70+i SAID[i] at SHARE[i],ways+1-i left offset 0.6,0 font body textcolor rgb ink
}
plot for [i=1:ways] '+' using (0.5*SHARE[i]):(ways+1-i):(0.5*SHARE[i]):(0.36) every ::0::0 with boxxyerror fs solid 1.0 border lc rgb ink fc rgb HUE[i]
unset multiplot
