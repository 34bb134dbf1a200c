/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/version.h - the version, in the one place that everything takes it from: the program, the
 * library, their manual page and pkg-config file. Semantic versioning 2.0.0; docs/CHANGELOG.md says
 * what each brought.
 */
#ifndef BASE_VERSION_H
#define BASE_VERSION_H
#define VERSION "0.1.0"
enum { VERSION_YEAR = 2026, VERSION_MONTH = 11, VERSION_DAY = 26 }; /* on which it was given */
#endif
