"""Count meson's test logs: count.py LOG FAILED_STEPS. A TAP test counts each of its checks; a skipped one counts as failed."""
import json
import re
import sys

passed = 0
failed = int(sys.argv[2])
names = []
for line in open(sys.argv[1], encoding="utf-8"):
    test = json.loads(line)
    checks = re.findall(r"^(not ok|ok) \d+(.*)$", test.get("stdout") or "", re.M)
    good = sum(1 for state, rest in checks if state == "ok" and "# SKIP" not in rest.upper())
    bad = len(checks) - good
    if test["result"] in ("OK", "EXPECTEDFAIL"):
        good = good or (0 if bad else 1)
    elif bad == 0:
        bad = 1
    passed += good
    failed += bad
    if bad:
        names.append(f"{test['name']} ({test['result']})")
for name in names:
    print("failed:", name)
if passed == 0:
    failed += 1
    print("failed: no test ran")
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
