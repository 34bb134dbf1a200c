# SPDX-License-Identifier: GPL-3.0-or-later
# tests/bench/growth.gp - how time and memory grow.
set terminal pngcairo size 1000,760 font ',11'
set output picture
set multiplot layout 2,2
set logscale xy
set grid
set key top left
set ylabel 's'
set xlabel 'cells'
set title 'Two days of a season'
plot folder.'/points-cells.dat' using 1:2 with linespoints pt 7 title 'processor time'
set title 'One attempt at a step'
set ylabel 'ms'
plot folder.'/points-cells.dat' using 1:(1e3*$2/$4) with linespoints pt 7 title 'processor time'
set title 'A season of the usual mesh'
set ylabel 's'
set xlabel 'days'
plot folder.'/points-days.dat' using 1:2 with linespoints pt 7 title 'processor time'
set title 'Possible piles, one thread'
set ylabel 's and MB'
set xlabel 'members'
plot folder.'/points-members.dat' using 1:4 with linespoints pt 7 title 's of the processor', \
     folder.'/points-members.dat' using 1:3 with linespoints pt 6 title 'MB at the peak'
