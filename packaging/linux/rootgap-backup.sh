#!/bin/sh
# Backs up the records of every job below a folder, one file a job and day. Run it from cron or a timer:
#   rootgap-backup.sh /opt/rootgap/rootgap /srv/rootgap /mnt/backup
set -eu
[ $# -eq 3 ] || { echo "usage: rootgap-backup.sh PROGRAM JOBS BACKUPS" >&2; exit 64; }
failed=0
for job in "$2"/*/; do
    [ -d "$job.rootgap" ] || continue
    file="$3/$(basename "$job")-$(date +%Y-%m-%d).db"
    [ ! -e "$file" ] || continue
    "$1" job backup "$job" --out "$file" || failed=1
done
exit $failed
