# SPDX-License-Identifier: GPL-3.0-or-later
# plots/film.gp - a frame a day: the cut through the pile above, where on the course it is below. Its rooms are
# shares of `full`; for a low pile the frames are less high (tell/film).
unset label 1
unset label 2
set palette defined (0 '#440154', 0.25 '#3b528b', 0.5 '#21918c', 0.75 '#5ec962', 1 '#fde725')
set palette maxcolors 40
unset key
unset grid
fit = 0.74*wide/(right-left) < 0.48*full/top ? 0.74*wide/(right-left) : 0.48*full/top
y(share) = share*full/high
w = fit*(right-left)/wide
h = fit*top/high
lap = 0.7*(right-left)/(wide*w)
if (h*high < 110) { set cbtics (LEAST[1], MOST[1]) }
cold = least
warm = most
do for [k=1:columns] {
    set multiplot
    set label 4 HEAD[k] at screen 0.12,1-y(0.04) left font big textcolor rgb ink
    set label 5 name at screen 0.12,1-y(0.082) left font small textcolor rgb ink
    set lmargin at screen 0.12
    set rmargin at screen 0.12 + w
    set bmargin at screen y(0.385)
    set tmargin at screen y(0.385) + h
    set border 3
    set xrange [left:right]
    set yrange [0:top]
    unset xtics
    set ytics autofreq out scale 0.6
    set label 7 'height, '.length at screen 0.12,y(0.405) + h left font small textcolor rgb ink
    set xlabel ''
    set cbrange [LEAST[1]:MOST[1]]
    set colorbox user origin screen 0.12 + w + 0.02,y(0.385) size screen 0.025,h noborder
    set label 3 temp at screen 0.12 + w + 0.02,y(0.405) + h left textcolor rgb ink
    plot $CELLS index (k-1) using (0.5*($1+$2)):(0.5*($3+$4)):1:($2+lap):3:($4+lap):5 with boxxyerror lc palette
    unset label 3
    unset label 7
    unset label 4
    unset label 5
    unset colorbox
    set rmargin at screen 0.96
    set bmargin at screen y(0.075)
    set tmargin at screen y(0.305)
    set xrange [0.5:days+0.5]
    set yrange [cold:warm]
    set ytics 20 out scale 0.6
    eval dated
    set xtics nomirror
    set label 6 'middle of the pile, °C' at screen 0.12,y(0.33) left font small textcolor rgb ink
    plot $BAND using 1:2:3 with filledcurves fs solid 1.0 noborder lc rgb '#f7dccc', \
        $DAYS using 1:2 with lines lc rgb c_middle lw 2, \
        $DAYS every ::(DAY[k]-1)::(DAY[k]-1) using 1:2 with points pt 7 ps 1.8 lc rgb '#000000'
    unset label 6
    unset multiplot
}
