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
unset key
do for [b=1:bands] {
    col = b <= 5 ? 0.02 : 0.42
    row = 0.275 - 0.056*((b-1)%5)
    set object 100+b rectangle from screen col,row-0.016 to screen col+0.05,row+0.016 fc rgb COLOUR[b] fs solid 1.0 border lc rgb ink
    set label 100+b WORDS[b][4:] at screen col+0.065,row left textcolor rgb ink
}
set arrow 99 from screen 0.42,0.275-0.056*4 to screen 0.47,0.275-0.056*4 nohead lc rgb '#000000' lw 2
set label 99 'sum: the pile warms or cools' at screen 0.485,0.275-0.056*4 left textcolor rgb ink
plot \
    for [b=1:bands] $BANDS every 2 using ($1+0.5):(column(COLUMN[b]+1) > column(COLUMN[b]) ? column(COLUMN[b]+1) : NaN):1:($1+1.06):(column(COLUMN[b])):(column(COLUMN[b]+1)) with boxxyerror fs solid 1.0 noborder lc rgb COLOUR[b] notitle, \
    for [b=1:bands] $BANDS every 2 using ($1+0.5):(column(COLUMN[b]+3) < column(COLUMN[b]+2) ? column(COLUMN[b]+3) : NaN):1:($1+1.06):(column(COLUMN[b]+3)):(column(COLUMN[b]+2)) with boxxyerror fs solid 1.0 noborder lc rgb COLOUR[b] notitle, \
    0 with lines lc rgb ink lw 1.2 notitle, \
    $BANDS using 1:sum_column with lines lc rgb '#ffffff' lw 4.5 notitle, \
    $BANDS using 1:sum_column with lines lc rgb '#000000' lw 2 notitle
