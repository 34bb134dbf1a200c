#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/shown.sh - the pages show what the program prints.
exec sh tests/shown.sh "$1" compare
