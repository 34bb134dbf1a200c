# SPDX-License-Identifier: GPL-3.0-or-later
# plots/mass.gp - dry mass at each day's end, a bar a day, stacked by kind of matter.
set lmargin at screen 0.075
set rmargin at screen 0.745
set bmargin at screen 0.14
set tmargin at screen 0.86
set yrange [0:most]
set y2range [0:most*size]
set y2tics
set ylabel sprintf('dry mass, %s', unit) textcolor rgb ink
set y2label sprintf('dry mass, %s', other) textcolor rgb ink offset -0.8,0
set key at screen 0.81,0.86 left top Left reverse vertical maxcols 1 samplen 1.6 spacing 1.35 textcolor rgb ink
plot \
    for [b=1:bands] keyentry with boxes fs solid 1.0 border lc rgb ink fc rgb COLOUR[b] title WORDS[b], \
    for [b=1:bands] $BANDS using 1:(column(COLUMN[b])):(column(COLUMN[b]+1)) with filledcurves lc rgb COLOUR[b] notitle, \
    for [b=1:bands] $BANDS using 1:(column(COLUMN[b]+1) > column(COLUMN[b]) ? column(COLUMN[b]+1) : NaN) with lines lc rgb ink lw 0.8 notitle, \
    0 with lines lc rgb ink lw 1 notitle, \
    $NAMES using 1:2:3:4 with labels center textcolor rgb variable notitle
