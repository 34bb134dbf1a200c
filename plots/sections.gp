# SPDX-License-Identifier: GPL-3.0-or-later
# plots/sections.gp - cross-sections: a row a quantity, a column a day, every cell a rectangle; of a low pile
# a column a quantity, a row a day.
# Viridis: even steps look even, also in grey. One scale of length everywhere.
set palette defined (0 '#440154', 0.25 '#3b528b', 0.5 '#21918c', 0.75 '#5ec962', 1 '#fde725')
array NAME[3] = ['temperature', 'water', 'oxygen']
array UNIT[3] = [temp, '% of wet mass', '% of pore air']
unset key
unset grid
unset xlabel
set border 3
set tics font small out scale 0.6
set xrange [left:right]
set yrange [0:top]
set cbtics font small
# neighbours lap by a hair, or the white of the page shows between them
lap = 0.7*(right - left)/(1400*width)
y(points) = 1.0*points/high
set multiplot
if (lying) {
    pitch = 0.88/3
    set ylabel ''
    set xlabel ''
    do for [k=1:columns] {
        foot = y(112.5 + (columns-k)*rise)
        set bmargin at screen foot
        set tmargin at screen foot + y(height)
        if (k == columns) { eval full_tics } else { eval bare_tics }
        do for [r=1:3] {
            west = 0.1 + (r-1)*pitch
            set lmargin at screen west
            set rmargin at screen west + width
            set cbrange [LEAST[r]:MOST[r]]
            set label 3 RANGE[3*(k-1)+r] at screen west + 0.5*width,foot + y(height + 11.7) center font small textcolor rgb ink
            if (r == 1) { set label 4 sprintf("%s %s\n%s %s", word(HEAD[k],1), word(HEAD[k],2), word(HEAD[k],3), word(HEAD[k],4)) at screen 0.06,foot + y(0.5*height + 8) right font small textcolor rgb ink }
            if (k == 1) { set label 5 NAME[r].', '.UNIT[r] at screen west + 0.5*width,foot + y(height + 36) center textcolor rgb ink }
            if (k == columns) {
                set colorbox horizontal user origin screen west,y(40.5) size screen width,y(12.6) noborder
                set label 6 'from the axis, '.length at screen west + 0.5*width,y(74.7) center font small textcolor rgb ink
            } else { unset colorbox }
            if (r == 1) { set format y '%g' } else { set format y '' }
            if (r == 1 && k == 1) { set label 7 'height, '.length at screen 0.094,foot + y(height + 11.7) right font small textcolor rgb ink }
            plot $CELLS index (k-1) using (0.5*($1+$2)):(0.5*($3+$4)):1:($2+lap):3:($4+lap):(column(4+r)) with boxxyerror lc palette
            do for [i=1:7] { unset label i }
        }
    }
} else {
    pitch = 0.82/columns
    do for [r=1:3] {
        foot = y(73.8 + (3-r)*rise)
        set bmargin at screen foot
        set tmargin at screen foot + y(height)
        set cbrange [LEAST[r]:MOST[r]]
        set label 5 NAME[r] at screen 0.022,foot + y(0.5*height) center rotate by 90 textcolor rgb ink
        if (r == 3) { eval full_tics } else { eval bare_tics }
        do for [k=1:columns] {
            west = 0.075 + (k-1)*pitch + 0.5*(pitch - width)
            set lmargin at screen west
            set rmargin at screen west + width
            set label 3 RANGE[3*(k-1)+r] at screen west + 0.5*width,foot + y(height + 14.4) center font small textcolor rgb ink
            if (r == 1) { set label 4 HEAD[k] at screen west + 0.5*width,foot + y(height + 41.4) center textcolor rgb ink }
            if (k == columns) {
                set colorbox user origin screen 0.91,foot size screen 0.014,y(height) noborder
                set label 6 UNIT[r] at screen 0.91,foot + y(height + 16.2) left font small textcolor rgb ink
            } else { unset colorbox; unset label 6 }
            set ylabel (k == 1 ? 'height, '.length : '') font small textcolor rgb ink
            set xlabel (r == 3 ? 'from the axis, '.length : '') font small textcolor rgb ink offset 0,0.4
            if (k == 1) { set format y '%g' } else { set format y '' }
            plot $CELLS index (k-1) using (0.5*($1+$2)):(0.5*($3+$4)):1:($2+lap):3:($4+lap):(column(4+r)) with boxxyerror lc palette
            unset label 1
            unset label 2
            unset label 3
            unset label 4
            unset label 5
        }
    }
}
unset multiplot
