# packages.sh: install Debian packages that are missing; sourced by data/demo/run and tests/run.

BUILD_PACKAGES="gcc libc6-dev pkg-config meson ninja-build gettext libglib2.0-dev-bin libgtk-4-dev libgtk-4-bin libsqlite3-dev
  libgsl-dev check desktop-file-utils appstream adwaita-icon-theme librsvg2-common fonts-dejavu-core
  gsettings-desktop-schemas tzdata"
DISPLAY_PACKAGES="xvfb dbus"

# need PACKAGE...: as root, or with sudo; nothing happens when all are there.
need ()
{
  missing=
  for package in "$@"; do
    dpkg-query -W -f '${db:Status-Status}\n' "$package" 2>/dev/null | grep -qx installed || missing="$missing $package"
  done
  [ -z "$missing" ] && return 0
  as_root=
  [ "$(id -u)" = 0 ] || as_root=sudo
  echo "Installing:$missing"
  $as_root apt-get update -qq &&
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >/dev/null ||
    { echo "Could not install:$missing. Install them by hand and run this again." >&2; return 1; }
}
