# SPDX-License-Identifier: GPL-3.0-or-later
# tests/bench/race.gp - time against error of all contenders: a whole season, and ten days.
set terminal pngcairo size 1150,1000 font ',11'
set output picture
set multiplot layout 2,1
set logscale xy
set grid
set key outside right
set xlabel 'error of the cells at midnight, rms, °C'
set ylabel 'processor time, ms (median)'
colours = '#0072b2 #009e73 #d55e00 #e69f00 #cc79a7 #000000 #888888 #6a3d9a #56b4e9 #a65628 #333399 #7fc97f #b15928'
do for [name in 'season short'] {
    set title name eq 'season' ? '120 days, turned every week' : 'ten days, turned once'
    data = folder.'/points-'.name.'.dat'
    contenders = int(system("grep -c '^\"' ".data))
    plot for [i=0:contenders-1] data index i using 1:2 with linespoints pt (i % 12) + 4 lw 1.5 \
        lc rgb word(colours, i + 1) title columnheader(1)
}
