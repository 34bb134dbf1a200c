# SPDX-License-Identifier: GPL-3.0-or-later
# plots/lesson_watts.gp - heat made and lost in watts, a bar a day, stacked by the way it takes.
set lmargin at screen 0.075
set rmargin at screen 0.745
set bmargin at screen 0.14
set tmargin at screen 0.86
set yrange [least:most]
set ylabel 'W, mean of the day: made and gained above nought, lost below' textcolor rgb ink
set key at screen 0.765,0.86 left top Left reverse vertical maxcols 1 samplen 1.6 spacing 1.35 textcolor rgb ink
set label 3 note at screen 0.075,0.02 left font small textcolor rgb ink
plot \
    for [b=1:bands] keyentry with boxes fs solid 1.0 border lc rgb ink fc rgb COLOUR[b] title WORDS[b], \
    for [b=1:bands] $BANDS using 1:(column(COLUMN[b])):(column(COLUMN[b]+1)) with filledcurves lc rgb COLOUR[b] notitle, \
    for [b=1:bands] $BANDS using 1:(column(COLUMN[b]+2)):(column(COLUMN[b]+3)) with filledcurves lc rgb COLOUR[b] notitle, \
    for [b=1:bands] $BANDS using 1:(column(COLUMN[b]+1) > column(COLUMN[b]) ? column(COLUMN[b]+1) : NaN) with lines lc rgb ink lw 0.7 notitle, \
    for [b=1:bands] $BANDS using 1:(column(COLUMN[b]+3) < column(COLUMN[b]+2) ? column(COLUMN[b]+3) : NaN) with lines lc rgb ink lw 0.7 notitle, \
    0 with lines lc rgb ink lw 1.2 notitle, \
    $BANDS using 1:sum_column with lines lc rgb '#ffffff' lw 4.5 notitle, \
    $BANDS using 1:sum_column with lines lc rgb '#000000' lw 2 title 'sum: what the pile keeps', \
    $NAMES using 1:2:3:4 with labels center textcolor rgb variable notitle
