/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/complaints.h - what libyaml complains of, in plain words with a way to mend it. */
#ifndef DOOR_COMPLAINTS_H
#define DOOR_COMPLAINTS_H

/* The problem in our words, or as it is when it is a rare one. */
const char *complaints_plainly(const char *problem);
#endif
