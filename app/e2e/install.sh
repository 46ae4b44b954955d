#!/bin/sh
# install.sh PACKAGE...: installs Debian packages that are missing, where it can:
# on Debian as root. Elsewhere it says what is missing and lets the tests decide.
missing=
for package; do
  case $package in
    nodejs) program=node ;;
    webkit2gtk-driver) program=WebKitWebDriver ;;
    xvfb) program=Xvfb ;;
    *) program=$package ;;
  esac
  command -v "$program" >/dev/null || missing="$missing $package"
done
[ -z "$missing" ] && exit 0
if [ "$(id -u)" != 0 ] || ! command -v apt-get >/dev/null; then
  echo "not installed here:$missing"
  exit 0
fi
export DEBIAN_FRONTEND=noninteractive
apt-get update -qq && apt-get install -y -qq --no-install-recommends $missing >/dev/null
