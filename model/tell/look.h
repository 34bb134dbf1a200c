/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/look.h - how a report and a handover look: on a phone, in the dark, on paper. */
#ifndef TELL_LOOK_H
#define TELL_LOOK_H

extern const char look_styles[];
/* For a list of figures whose id is `days`: one of them at a time. */
extern const char look_slider[];
#endif
