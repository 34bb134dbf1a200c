# SPDX-License-Identifier: GPL-3.0-or-later
# plots/common.gp - what every picture shares: type, frame, title.
# tell/chart writes the figures above this text; a picture's own file follows it. Nothing here
# computes a result. Text is near-black; grids are light; no ornament.
set encoding utf8
set minussign
ink = '#222222'
pale = '#dddddd'
# sizes of type are in the terminal's own unit, points for one and pixels for the other
unit_of_type = kind eq 'svg' ? 1.0 : 0.75
big = sprintf(',%.2f', 21.0*unit_of_type)
small = sprintf(',%.2f', 13.0*unit_of_type)
# a marker of the one terminal is larger than of the other
mark = kind eq 'svg' ? 0.55 : 0.9
set border lc rgb ink lw 1
set tics textcolor rgb ink nomirror
set style line 9 lt 1 lc rgb pale lw 1 dt solid
set grid noxtics ytics back ls 9
set style fill solid 1.0 noborder
set style textbox opaque noborder fillcolor rgb '#ffffff' margins 0.4,0.3
set label 1 finding at screen 0.075,1-34.2/high left font big textcolor rgb ink
set label 2 from at screen 0.075,1-73.8/high left font small textcolor rgb ink
if (exists('days')) { set xrange [0.5:days+0.5] }
set xlabel 'date, and day since the pile was finished' offset 0,-1 textcolor rgb ink
