#!/bin/sh
# Writes the text of a review's comment to standard output: review-comment.sh BASE [HEAD]
# BASE is the revision that is merged into; HEAD is what is merged, and checked out.
set -u
base=${1:?"usage: review-comment.sh BASE [HEAD]"}
head=${2:-HEAD}
from=$(git merge-base "$base" "$head") || exit 2

setproof check --changed-since "$from" --format markdown
status=$?
# 1 is a finding, which the comment is for.
[ "$status" -le 1 ] || exit "$status"
echo
setproof compare --git "$from..$head" --format markdown
