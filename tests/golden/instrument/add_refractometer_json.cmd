rc=0
areo instrument add prism-2 --kind refractometer --atc --gravity-scale --on 2026-02-28T00:00Z --json
