# SPDX-License-Identifier: GPL-3.0-or-later
# plots/day.gp - one cross-section: temperature large, water and oxygen below; one scale of length. Its rooms
# are shares of `full`; for a low pile the picture is less high (tell/plates).
unset label 1
unset label 2
set palette defined (0 '#440154', 0.25 '#3b528b', 0.5 '#21918c', 0.75 '#5ec962', 1 '#fde725')
unset key
unset grid
unset xlabel
set border 3
set tics font small out scale 0.6
set xrange [left:right]
set yrange [0:top]
set cbtics font small
# the largest that fit, in points
big_fit = 0.72*wide/(right-left) < 0.45*full/top ? 0.72*wide/(right-left) : 0.45*full/top
low_fit = 0.31*wide/(right-left) < 0.19*full/top ? 0.31*wide/(right-left) : 0.19*full/top
y(share) = share*full/high
array WEST[3] = [0.13, 0.05, 0.56]
array FOOT[3] = [y(0.225) + low_fit*top/high, y(0.03), y(0.03)]
array FIT[3] = [big_fit, low_fit, low_fit]
array NAME[3] = ['temperature', 'water', 'oxygen']
array UNIT[3] = [temp, '% of wet mass', '% of pore air']
set multiplot
set label 4 HEAD[1] at screen 0.02,1-y(0.038) left textcolor rgb ink
eval full_tics
set xtics offset 0,0.3
do for [r=1:3] {
    w = FIT[r]*(right-left)/wide
    h = FIT[r]*top/high
    lap = 0.7*(right-left)/(wide*w)
    west = WEST[r]
    foot = FOOT[r]
    set lmargin at screen west
    set rmargin at screen west + w
    set bmargin at screen foot
    set tmargin at screen foot + h
    set cbrange [LEAST[r]:MOST[r]]
    set colorbox user origin screen west + w + 0.015,foot size screen 0.02,h noborder
    set label 3 NAME[r].': '.RANGE[r] at screen (r == 3 ? 0.53 : 0.02),foot + h + y(0.04) left font small textcolor rgb ink
    if (r > 1) { unset xtics; unset ytics; set border 0 }
    if (r > 1 || h*high < 110) { set cbtics (LEAST[r], MOST[r]) }
    set xlabel (r == 1 ? 'from the axis, '.length : '') font small textcolor rgb ink offset 0,0.9
    set ylabel (r == 1 ? 'height, '.length : '') font small textcolor rgb ink
    plot $CELLS index 0 using (0.5*($1+$2)):(0.5*($3+$4)):1:($2+lap):3:($4+lap):(column(4+r)) with boxxyerror lc palette
    unset label 4
}
unset multiplot
