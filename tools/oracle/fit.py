"""A second opinion on `rootgap fit`: places parts with known errors, works out what would be read from packet.json's ports alone
(docs/fit-up.md, quaternions instead of rotation vectors), and asks for the error back.

    python3 tools/oracle/fit.py ROOTGAP DRAWING [CASES]

ROOTGAP is the command, for example "dotnet src/Rootgap.Cli/bin/Release/net10.0/Rootgap.Cli.dll".
"""
import json, math, random, shlex, subprocess, sys, tempfile, os

PRIOR = [5, 5, 5, 3, 3, 3]
NAMES = ["x", "y", "z", "rx", "ry", "rz"]


def v(p): return (p["east"], p["north"], p["up"])
def add(*a): return tuple(map(sum, zip(*a)))
def mul(a, k): return tuple(x * k for x in a)
def sub(a, b): return tuple(x - y for x, y in zip(a, b))
def dot(a, b): return sum(x * y for x, y in zip(a, b))
def cross(a, b): return (a[1]*b[2]-a[2]*b[1], a[2]*b[0]-a[0]*b[2], a[0]*b[1]-a[1]*b[0])
def norm(a): return math.sqrt(dot(a, a))
def unit(a): return mul(a, 1 / norm(a))
def flat(a, n): return sub(a, mul(n, dot(a, n)))


def spin(p, w):
    """p turned by the rotation vector w (radians), by a quaternion."""
    t = norm(w)
    if t == 0:
        return p
    s, q = math.cos(t / 2), mul(w, math.sin(t / 2) / t)
    c = mul(cross(q, p), 2)
    return add(p, mul(c, s), cross(q, c))


class Joint:
    def __init__(self, drawing, answer, sizes):
        comps = {c["id"]: c for c in drawing["components"]}
        joints = drawing["joints"]
        j = next(j for j in joints if j["joint"] == answer["joint"])
        self.D = sizes[j["size"]]
        self.d = self.D - 2 * j["wall"]
        self.m = answer["mark"]
        self.c = v(j["at"])
        new = comps[answer["new"]]
        ports = sorted(new["ports"], key=lambda p: norm(sub(v(p), self.c)))
        self.a = mul(v(ports[0]["face"]), -1)
        held = [q for q in joints if answer["held"] in q["between"] and q is not j]
        self.g = 2 * dot(sub(v(ports[0]), self.c), self.a)
        out = ports[1]
        if new["kind"] == "tee":  # its branch, or the first end of its run where the branch is welded
            out = new["ports"][0] if ports[0] is new["ports"][-1] else new["ports"][-1]
        self.f, self.n = v(out), v(out["face"])
        self.kind = new["kind"]
        self.D2 = {"flange": sizes["flange"].get(new["size"])}.get(self.kind, self.D)
        self.t = math.acos(max(-1, min(1, dot(self.a, self.n))))
        self.side = unit(flat(self.n, self.a)) if self.t > 0.01 else None
        setup = answer["set-up"]
        top = flat((0, 0, 1), self.a)
        base = self.side or (unit(top) if norm(top) > 0.0872 else unit(flat((0, 1, 0), self.a)))
        self.up = self.a if setup == "on end" else base if setup == "level" else cross(base, self.a)
        y = flat(self.up, self.a)
        for other in ((0, 1, 0), (0, 0, 1)):
            if norm(y) > math.sin(math.radians(5)):
                break
            y = flat(other, self.a)
        self.y = unit(y)
        self.x = cross(self.a, self.y)
        if setup == "on end":
            # The held pipe's far end: the other weld on it, half a gap nearer; or unknown.
            far = max((v(q["at"]) for q in held if q["kind"] == "butt"), key=lambda p: norm(sub(p, self.c)), default=None)
            self.floor = add(far, mul(self.a, self.g / 2)) if far else None
        else:
            self.floor = sub(self.c, mul(self.up, 900 + self.D / 2))

    def q(self, at): return {12: self.y, 3: self.x, 6: mul(self.y, -1), 9: mul(self.x, -1)}[at]

    def carried(self, q): return q if self.side is None else spin(q, mul(cross(self.a, self.side), self.t))

    def read(self, t, e):
        shift = add(mul(self.x, e[0]), mul(self.y, e[1]), mul(self.a, e[2]))
        w = add(*(mul(axis, math.radians(e[3 + i])) for i, axis in enumerate((self.x, self.y, self.a))))
        move = lambda p: add(self.c, spin(sub(p, self.c), w), shift)
        name, at = t["read"], t.get("at")
        lip = lambda q: add(self.f, mul(self.carried(q), self.D2 / 2))
        slope = lambda d: math.degrees(math.asin(dot(spin(d, w), self.up)))
        if name in ("gap", "hi-lo"):
            nose = mul(self.q(at), self.d / 2)
            half = mul(self.a, self.g / 2)
            step = sub(move(add(self.c, half, nose)), add(sub(self.c, half), nose))
            return dot(step, self.a if name == "gap" else self.q(at))
        mark = lambda q: add(self.c, mul(self.a, -(self.g / 2 + self.m)), mul(q, self.D / 2))
        if name == "tape":
            return norm(sub(move(lip(self.q(at))), mark(self.q(at))))
        if name == "plumb":
            return norm(flat(sub(move(lip(self.q(at))), mark(self.q(at))), self.up))
        if name == "height":
            return None if self.floor is None else dot(sub(move(lip(self.q(at)) if at else self.f), self.floor), self.up)
        if name == "face level":
            if "along" in t:
                return slope(self.carried(self.side or self.y))
            return slope(self.carried(self.x if self.side is None or abs(dot(self.side, self.x)) < 0.01 else self.y if abs(dot(self.side, self.y)) < 0.01 else None))
        if name == "scale to pipe":
            if self.side is None:
                return None
            face, n = move(self.f), spin(self.n, w)
            base = sub(self.c, mul(self.a, t["station"]))
            return dot(sub(face, base), n) / dot(self.side, n) - self.D / 2
        return None


def value(t): return next((t[k] for k in ("mm", "along", "across", "deg") if k in t))


def main():
    tool, drawing, cases = shlex.split(sys.argv[1]), sys.argv[2], int(sys.argv[3]) if len(sys.argv) > 3 else 60
    rnd = random.Random(5)
    with tempfile.TemporaryDirectory() as tmp:
        subprocess.run(tool + ["packet", drawing, "--out", tmp], check=False, stdout=subprocess.DEVNULL)
        packet = json.load(open(os.path.join(tmp, "packet.json")))["drawings"][0]
        # ASME B36.10M outside diameters; ASME B16.5 class 150 flange outside diameters, millimetre columns.
        sizes = {"6": 168.3, "4": 114.3, "2": 60.3, "flange": {"6": 280, "4": 230, "2": 150}}
        comps = {c["id"]: c["kind"] for c in packet["components"]}
        welds = [j["joint"] for j in packet["joints"] if j["kind"] == "butt" and sum(b[0] == "P" for b in j["between"]) == 1
                 and any(comps.get(b) in ("elbow", "flange", "tee") for b in j["between"])]
        worst, bad, ratios, asked = 0, 0, {n: [] for n in NAMES}, 0
        for k in range(cases):
            weld, setup = welds[k % len(welds)], rnd.choice(["on end", "level", "rolled"])
            base = tool + ["fit", drawing, "--joint", weld, "--set-up", setup, "--json", "--no-record"]
            answer = json.loads(subprocess.run(base, capture_output=True, text=True).stdout)
            joint = Joint(packet, answer, sizes)
            e = [rnd.uniform(-1, 1) * (5 if i < 3 else 3) for i in range(6)]
            lines = []
            for t in answer["targets"]:
                mine = joint.read(t, [0] * 6)
                if mine is None:
                    continue
                off = abs(mine - value(t))
                worst = max(worst, off)
                if off > 0.05:
                    bad += 1
                    print(f"{weld} {setup} {t['read']} {t.get('at', t.get('station'))}: {value(t)} against {mine:.3f}")
                entry = {key: t[key] for key in ("read", "at", "station") if key in t}
                entry[next(key for key in ("mm", "along", "across", "deg") if key in t)] = joint.read(t, e)
                lines.append("  - " + json.dumps(entry))
            file = os.path.join(tmp, "r.yaml")
            open(file, "w").write(f"joint: {weld}\nreadings:\n" + "\n".join(lines) + "\n")
            found = json.loads(subprocess.run(base + ["--readings", file], capture_output=True, text=True).stdout)
            for i, n in enumerate(NAMES):
                if n in found["unseen"]:
                    continue
                asked += 1
                off = abs(found["error"][n] - e[i])
                if off > (0.02 if i < 3 else 0.005):
                    bad += 1
                    print(f"{weld} {setup} {n}: {found['error'][n]} for {e[i]:.4f}, unseen {found['unseen']}")
        print(f"{cases} cases, {asked} components asked back; largest difference of a target {worst:.4f}; {bad} wrong")
        return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
