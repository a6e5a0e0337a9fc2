#!/bin/sh
# Puts Wellbook where your desktop finds it, for you alone; nothing else on the computer changes.
#   ./install.sh          install, or install again after the folder was moved
#   ./install.sh remove   take it away again; your books stay where they are
set -eu
here=$(CDPATH= cd -- "$(dirname -- "$0")" && pwd)
data=${XDG_DATA_HOME:-"$HOME/.local/share"}
entry=$data/applications/wellbook.desktop
kind=$data/mime/packages/wellbook.xml
icon=$data/icons/hicolor/scalable/apps/wellbook.svg
if [ "${1:-}" = remove ]; then
  rm -f "$entry" "$kind" "$icon"
else
  mkdir -p "$(dirname "$entry")" "$(dirname "$kind")" "$(dirname "$icon")"
  # A folder's name may hold what a desktop entry or sed would read as something else.
  case $here in *[\"\`\$\\\&\|%\ ]*)
    echo "Move this folder to a place whose name has no blanks or signs, and try again." >&2
    exit 1 ;;
  esac
  sed "s|@FOLDER@|$here|" "$here/wellbook.desktop" > "$entry"
  cp "$here/wellbook.xml" "$kind"
  cp "$here/wellbook.svg" "$icon"
fi
# Each desktop reads these again by itself at the latest at the next sign-in.
command -v update-desktop-database >/dev/null && update-desktop-database "$data/applications" || true
command -v update-mime-database >/dev/null && update-mime-database "$data/mime" || true
