#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# docs/packaging/deb.sh - Debian packages in build/deb, from what stands in this folder.
#
#     sh docs/packaging/deb.sh VERSION
#
# The source package is made of the files of the top level and of docs/packaging/debian. Its tests are
# not run again here (`make check` does); who builds the source package elsewhere runs them.
set -eu
version=$1
name=midden-$version
for tool in dpkg-buildpackage dh; do
    command -v $tool >/dev/null || { echo "make deb needs $tool: install dpkg-dev and debhelper"; exit 69; }
done
stamp=$(dpkg-parsechangelog -l docs/packaging/debian/changelog -S Timestamp)
rm -rf build/deb
mkdir -p "build/deb/$name"
# nothing that was built, drawn or is of git; the same bytes from any folder and at any time
tar -cf - --exclude='.*.part' .clang-format .gitignore README.md DEVELOPERS.md LICENSE Makefile model \
    scenarios tests plots docs | tar -xf - -C "build/deb/$name"
tar --sort=name --mtime="@$stamp" --owner=0 --group=0 --numeric-owner --mode=u=rwX,go=rX \
    -C build/deb -cf - "$name" | gzip -9n >"build/deb/midden_$version.orig.tar.gz"
rm -rf "build/deb/$name"
tar -xzf "build/deb/midden_$version.orig.tar.gz" -C build/deb
cp -R "build/deb/$name/docs/packaging/debian" "build/deb/$name/debian"
cd "build/deb/$name"
DEB_BUILD_OPTIONS="nocheck parallel=$(nproc)" DEB_BUILD_PROFILES=nocheck \
    dpkg-buildpackage -us -uc >../build.log 2>&1 || { tail -30 ../build.log; exit 1; }
cd ..
rm -rf "$name"
if command -v lintian >/dev/null; then
    lintian --fail-on error,warning --info --allow-root midden_*.changes
fi
ls -- *.deb *.dsc
