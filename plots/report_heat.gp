# SPDX-License-Identifier: GPL-3.0-or-later
# plots/report_heat.gp - heat gained and lost, a bar a day, stacked, for a page; the legend below.
unset label 1
unset label 2
set lmargin at screen 0.115
set rmargin at screen 0.97
set tmargin at screen 0.95
set bmargin at screen 0.37
set yrange [least:most]
unset xlabel
set label 5 'W, gained above nought, lost below' at screen 0.115,0.98 left textcolor rgb ink
set key at screen 0.06,0.30 left top Left reverse vertical maxrows 5 samplen 1.6 spacing 1.3 width 2 textcolor rgb ink
plot \
    for [b=1:bands] keyentry with boxes fs solid 1.0 border lc rgb ink fc rgb COLOUR[b] title WORDS[b], \
    for [b=1:bands] $BANDS using 1:(column(COLUMN[b])):(column(COLUMN[b]+1)) with filledcurves lc rgb COLOUR[b] notitle, \
    for [b=1:bands] $BANDS using 1:(column(COLUMN[b]+2)):(column(COLUMN[b]+3)) with filledcurves lc rgb COLOUR[b] notitle, \
    0 with lines lc rgb ink lw 1.2 notitle, \
    $BANDS using 1:sum_column with lines lc rgb '#ffffff' lw 4.5 notitle, \
    $BANDS using 1:sum_column with lines lc rgb '#000000' lw 2 title 'sum: the pile warms or cools'
