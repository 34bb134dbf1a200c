# SPDX-License-Identifier: GPL-3.0-or-later
# tests/field/course.gp - a published course of temperature over the range of an ensemble:
#     gnuplot -e "data='build/course-x21-heap1.dat'" tests/field/course.gp
# draws build/course-x21-heap1.png. The figures are written by tests/field/validate.
set terminal pngcairo size 1100,620 font 'sans,13' background rgb 'white'
set output data[1:strlen(data)-4].'.png'
ink = '#222222'
set border 3 lc rgb ink
set tics nomirror textcolor rgb ink
set grid ytics lc rgb '#dddddd'
set xlabel 'day' textcolor rgb ink
set ylabel 'middle, mean of the day, °C' textcolor rgb ink
set y2label ''
set yrange [0:80]
set key bottom right textcolor rgb ink samplen 3
set title data[14:strlen(data)-4].': published points over what the model says' textcolor rgb ink
plot data index 0 using 1:2:4 with filledcurves fs transparent solid 0.2 noborder lc rgb '#d55e00' title '8 in 10 possible piles', \
     data index 0 using 1:3 with lines lw 2.5 lc rgb '#d55e00' title 'median', \
     data index 1 using 1:2 with points pt 7 ps 1.5 lc rgb '#0072b2' title 'published'
