# lib.sh: what tools/test and tools/demo share; read with `.` from the project's folder.
#
# Packages are installed by apt-get where that is allowed (root, or sudo without a password);
# otherwise the line to run is printed. Builds go to folders below _build, which git ignores.

# packages PURPOSE: to build the program, to run the tests as well, to look for faults in the source.
packages ()
{
  case $1 in
    build)
      echo adwaita-icon-theme fonts-dejavu-core g++ gcc gettext libadwaita-1-dev libassimp-dev \
        libc6-dev libcglm-dev libegl-dev libepoxy-dev libgl1-mesa-dri libglib2.0-dev \
        libglib2.0-dev-bin libgtk-4-dev libjson-glib-dev libmeshoptimizer-dev libseccomp-dev meson ninja-build pkg-config
      ;;
    test)
      echo appstream assimp-testmodels at-spi2-core dbus desktop-file-utils libeigen3-dev libfcl-dev \
        man-db python3 python3-dogtail python3-jsonschema python3-pyatspi xauth xdotool xvfb
      ;;
    lint) echo clang clang-format clang-tidy cppcheck shellcheck ;;
  esac
}

# The packages of that purpose that are not installed, on one line.
missing_packages ()
{
  for package in $(packages "$1"); do
    status=$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null) || status=
    test "$status" = installed || printf ' %s' "$package"
  done
}

# Runs apt-get as root, by sudo where needed; quiet but for what goes wrong.
run_apt_get ()
{
  if test "$(id -u)" -eq 0; then
    DEBIAN_FRONTEND=noninteractive apt-get -qq -o DPkg::Lock::Timeout=300 "$@"
  else
    sudo -n env DEBIAN_FRONTEND=noninteractive apt-get -qq -o DPkg::Lock::Timeout=300 "$@"
  fi </dev/null >&2
}

# need PURPOSE: sees to it that its packages are installed, or stops with what to do.
need ()
{
  # Another system than Debian: whatever is missing, the build says so.
  command -v dpkg-query >/dev/null || return 0
  missing=$(missing_packages "$1")
  test -n "$missing" || return 0
  if test "$(id -u)" -eq 0 || sudo -n true 2>/dev/null; then
    echo "Installing:$missing" >&2
    # The lists of packages may be missing or out of date: then fetch them, once.
    # shellcheck disable=SC2086
    if run_apt_get install -y --no-install-recommends $missing 2>/dev/null ||
       { run_apt_get update && run_apt_get install -y --no-install-recommends $missing; }; then
      return 0
    fi
    echo "These packages could not be installed:$missing" >&2
  fi
  echo "Packages are missing. Run this line, then try again:" >&2
  echo "  sudo apt-get update && sudo apt-get install -y --no-install-recommends$missing" >&2
  exit 1
}

# configure FOLDER COMPILER OPTION…: sets up a build folder with gcc or clang; one that cannot be
# used is made anew.
configure ()
{
  folder=$1
  case $2 in
    gcc) cxx=g++ ;;
    *) cxx=clang++ ;;
  esac
  cc=$2
  shift 2
  if test -f "$folder/build.ninja"; then
    test $# -eq 0 && return 0
    meson configure "$folder" "$@" >/dev/null && return 0
  fi
  rm -rf "$folder"
  # There are more than two hundred programs to link, and gold takes half the time for each.
  linker=
  if command -v ld.gold >/dev/null; then linker="CC_LD=gold CXX_LD=gold"; fi
  # shellcheck disable=SC2086
  env CC="$cc" CXX="$cxx" $linker meson setup "$folder" "$@" >"$folder.log" 2>&1 && return 0
  cat "$folder.log" >&2
  return 1
}

# build FOLDER: compiles; what the compiler says is shown when it fails.
build ()
{
  ninja -C "$1" >"$1.log" 2>&1 && return 0
  cat "$1.log" >&2
  return 1
}
