/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/lesson_rows.c - see tell/lesson_rows.h. Nothing here is a number of a pile. */
#include "tell/lesson_rows.h"

const struct lesson_row lesson_rows[LESSON_STEPS] = {
    [LESSON_HANDS] =
        {0, 4, "At the pile: what is going on in there?",
         "Hands over the pile, not in it. Read the thermometer a hand deep, 30 cm in, and in the "
         "middle. "
         "Everyone writes down a guess of the middle in a week.",
         "Where does the warmth come from?", "the sun; a fire; something rotten",
         "Three readings of your own. Write them on the log sheet before anything is explained."},
    [LESSON_NEEDS] = {4, 9, "Food, water, air, and a crowd",
                      "A small jar with leaf, grass and a spoon of water goes round. The four "
                      "words go on the board.",
                      "Which of the four is missing in a jar of dry leaves?",
                      "air, since the lid is on; it is dead",
                      "A handful from 30 cm in, squeezed: does it drip, hold together, crumble?"},
    [LESSON_WATTS] = {9, 15, "Heat made and heat lost",
                      "Hold a hand over the top, then to a wall. Draw the pile with an arrow for "
                      "each way out; guess the "
                      "fattest arrow. Then show the figure lesson_watts.",
                      "By which way does most of the heat leave?",
                      "the top, because heat rises; the walls",
                      "Steam on a cold morning; walls that feel warmer than the fence; frost or "
                      "snow gone from the top first."},
    [LESSON_SIZE] = {15, 20, "A small pile and a large one",
                     "Two boxes or drawn cubes, one twice as wide. Count the faces, then the small "
                     "cubes that fit in. "
                     "Guess both curves; then show the figure lesson_sizes.",
                     "Same mix, half as wide: how warm does the small one get?",
                     "half as warm; just as warm",
                     "A bucket of the same mix beside the pile, with a thermometer in it."},
    [LESSON_FORK] =
        {20, 26, "What the fork brings",
         "Draw the middle's curve up to the turn. Everyone draws on for ten days. Then show the "
         "figure lesson_turned.",
         "The pile is turned. What does the thermometer show the next day, and after that?",
         "it gets hot at once; it is dead now",
         "The middle, read before the turn and on each of five days after it."},
    [LESSON_WATER] = {26, 31, "Dry, damp, wet",
                      "Three handfuls: dusty, one that holds together, one that drips. Everyone "
                      "guesses three curves. Then "
                      "show the figure lesson_wetness.",
                      "Which one uses up most in three weeks, and what do the others lack?",
                      "wet is best, plants like water; dry burns better",
                      "Three jars of the same mix, dry, damp and wet, smelt after a week."},
    [LESSON_WINTER] =
        {31, 35, "The coldest day",
         "Feel straw and a wet cloth: which keeps a hand warm? Then show the figure "
         "lesson_blanket.",
         "Does the cold kill the pile, or does it pause?", "it kills it; straw makes it warm",
         "Tap the crust, read a hand deep under straw and beside it on a morning of frost."},
    [LESSON_CHOICE] =
        {35, 38, "Which plan would you choose?",
         "Write the two plans on the board, with the minutes. Vote with three pairs of hands in "
         "mind.",
         "Which would you choose with three people?", "the most work must be the best",
         "The minutes that your own turn took, counted for each person and added up."},
    [LESSON_LOG] = {38, 40, "The log sheet",
                    "Hang the sheet at the pile: date, three depths, squeeze, what we did. Compare "
                    "the guesses of the "
                    "first minutes with the forecast.",
                    "What would prove the forecast wrong?",
                    "any other number; nothing, it is a computer",
                    "The readings themselves. They decide, not the forecast."},
};
