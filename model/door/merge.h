/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/merge.h - `run --merge`: the members of several shards told as one run. */
#ifndef DOOR_MERGE_H
#define DOOR_MERGE_H
#include "door/ask.h"

/* Each shard must be of the same run, and all of them together of each member once. */
bool merge_answer(const struct ask *ask, struct trouble *why);
#endif
