# Sourced by start and test: finds Go and installs what is missing.

need_go() {
  command -v go >/dev/null || PATH=$PATH:/usr/local/go/bin
  if ! command -v go >/dev/null; then
    echo "Truemat needs Go 1.26 or newer: install it from your system or from go.dev, then run this again." >&2
    exit 2
  fi
}

# What the window needs to be built: a C compiler and the headers of OpenGL
# and X; and to run: Mesa's drivers.
window_packages="gcc libgl1-mesa-dev xorg-dev libgl1-mesa-dri"

# need_packages package ... installs the Debian packages that are missing, or
# says what to install where there is no apt.
need_packages() {
  if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
    echo "No apt here: please see that your system has what Debian calls $*." >&2
    return
  fi
  local missing=() package
  for package in "$@"; do
    [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || missing+=("$package")
  done
  [ ${#missing[@]} -eq 0 ] && return
  local root=()
  if [ "$(id -u)" -ne 0 ]; then
    root=(sudo)
  fi
  echo "Installing with apt: ${missing[*]}"
  { "${root[@]}" apt-get update -qq && "${root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq "${missing[@]}" >/dev/null; } ||
    echo "Could not install ${missing[*]}; what needs them will not work." >&2
}
