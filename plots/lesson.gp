# SPDX-License-Identifier: GPL-3.0-or-later
# plots/lesson.gp - a lesson's lines of temperature, with their ranges; in a panel beneath, where there
# is one, oxygen on the same days.
set multiplot
set lmargin at screen 0.075
set rmargin at screen 0.935
set bmargin at screen (beneath ? 0.40 : 0.115)
set tmargin at screen 0.875
set xrange [first:last]
set yrange [least:most]
set y2range [1.8*least+32:1.8*most+32]
set ytics step
set y2tics 2*step
set ylabel ylabel_above textcolor rgb ink
set y2label '°F' textcolor rgb ink offset -0.8,0
set label 3 note at screen 0.075,0.02 left font small textcolor rgb ink
if (beneath) { set xtics format ''; unset xlabel } else { eval set_tics; set xlabel xlabel_below offset 0,-1 textcolor rgb ink }
do for [k=1:lines] { if (ON_X[k] > -900) { set label 100+k WORDS[k] at ON_X[k],ON_Y[k] center boxed front textcolor rgb ink } }
if (upright > -900) { set arrow 9 from upright,graph 0 to upright,graph 1 nohead lc rgb ink lw 1.2 dt 2 }
if (named) { unset key } else { set key top right textcolor rgb ink samplen 5 }
plot \
    for [k=1:lines] $LINES index (k-1) using 1:(bands ? $3 : NaN):4 with filledcurves fs transparent solid 0.15 noborder lc rgb COLOUR[k] notitle, \
    for [k=1:lines] $LINES index (k-1) using 1:2 with linespoints lc rgb COLOUR[k] dt DASH[k] lw 2.4 pt MARK[k] ps 1.3*mark pi spacing title WORDS[k]
if (beneath) {
    unset label
    unset y2tics
    unset y2label
    unset key
    eval set_tics
    set bmargin at screen 0.115
    set tmargin at screen 0.37
    set yrange [0:22]
    set ytics 5
    set ylabel ylabel_beneath textcolor rgb ink
    set xlabel xlabel_below offset 0,-1 textcolor rgb ink
    set label 3 note at screen 0.075,0.02 left font small textcolor rgb ink
    plot \
        for [k=1:lines] $BENEATH index (k-1) using 1:2 with linespoints lc rgb COLOUR[k] dt DASH[k] lw 2.4 pt MARK[k] ps 1.3*mark pi spacing notitle
}
unset multiplot
