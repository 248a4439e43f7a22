rc=1
instrument add stem-1 --on 2026-02-28
batch add PT-1 --on 2026-03-02
import log.csv --batch PT-1
