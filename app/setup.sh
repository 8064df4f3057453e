# Sourced by start and test: finds Go and installs what is missing.

need_go() {
  command -v go >/dev/null || PATH=$PATH:/usr/local/go/bin
  if ! command -v go >/dev/null; then
    echo "Truemat needs Go 1.26 or newer: install it from your system or from go.dev, then run this again." >&2
    exit 2
  fi
}

# need_packages program:package ... installs the Debian packages of the
# programs that are missing, or says what to install where there is no apt.
need_packages() {
  local missing=() pair
  for pair in "$@"; do
    command -v "${pair%%:*}" >/dev/null || missing+=("${pair#*:}")
  done
  [ ${#missing[@]} -eq 0 ] && return
  if ! command -v apt-get >/dev/null; then
    echo "Please install ${missing[*]}; what needs them is skipped until then." >&2
    return
  fi
  local root=()
  if [ "$(id -u)" -ne 0 ]; then
    root=(sudo)
  fi
  echo "Installing with apt: ${missing[*]}"
  { "${root[@]}" apt-get update -qq && "${root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq "${missing[@]}" >/dev/null; } ||
    echo "Could not install ${missing[*]}; what needs them is skipped." >&2
}
