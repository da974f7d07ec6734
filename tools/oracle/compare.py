"""Compares answers.json with the packets of the engine.

    python3 compare.py FOLDER PACKET.json...
"""
import collections, json, math, sys


# Stops that are right here: the lists are drawn short, and what is thrown at random runs through itself.
EXPECTED = ('quantity-short', 'pipe-listed-short', 'stud-number', 'runs-through-another', 'branch-on-fitting', 'piece-longer-than-stock')


def at(p): return [p['east'], p['north'], p['up']]
def far(a, b): return math.sqrt(sum((x - y) ** 2 for x, y in zip(a, b)))


def compare(mine, theirs, say, tolerance=0.01):
    """Calls say(kind of difference, detail) for each difference."""
    runs = {r['run']: [at(p) for p in r['points']] for r in theirs.get('runs', [])}
    for name, points in mine['points'].items():
        if name not in runs or len(runs[name]) != len(points):
            say('run missing', name)
            continue
        for i, (a, b) in enumerate(zip(points, runs[name])):
            if far(a, b) > tolerance:
                say('work point', f'{name}[{i}] {a} {b}')
                break
    # cuts
    left = list(theirs['cuts'])
    same = {}
    for n, c in enumerate(mine['cuts']):
        found = [x for x in left if x['run'] == c['run'] and x['leg'] == c['leg']]
        if len(found) != 1:
            say('cut missing' if not found else 'cut twice', f"{c['run']}[{c['leg']}] {c['length']}")
            continue
        x = found[0]
        left.remove(x)
        same[f'P{n}'] = x['id']
        if abs(x['length'] - c['length']) > tolerance:
            say('cut length', f"{c['run']}[{c['leg']}] mine {c['length']} theirs {x['length']} sum {[(s['what'], s['mm']) for s in x['sum']]}")
        if abs(x['extra'] - c['extra']) > tolerance:
            say('cut extra', f"{c['run']}[{c['leg']}] mine {c['extra']} theirs {x['extra']}")
        if x['size'] != c['size']:
            say('cut size', f"{c['run']}[{c['leg']}] mine {c['size']} theirs {x['size']}")
        if abs(sum(s['mm'] for s in x['sum']) - x['length']) > tolerance:
            say('sum', f"{c['run']}[{c['leg']}] {x['length']} {sum(s['mm'] for s in x['sum'])}")
    for x in left:
        say('cut not mine', f"{x['run']}[{x['leg']}] {x['length']}")
    # components
    left = list(theirs['components'])
    for n, c in enumerate(mine['components']):
        found = [x for x in left if x['run'] == c['run'] and x.get('leg') == c['leg'] and x['kind'] == c['kind']]
        if not found:
            say('component missing', f"{c['kind']} {c['run']}[{c['leg']}]")
            continue
        def gap(x):
            return sum(min([far(p, at(y)) + far(f, at(y['face'])) for y in x['ports']] or [1e9]) for p, f in c['ports'])
        x = min(found, key=gap)
        left.remove(x)
        same[f'C{n}'] = x['id']
        if x['size'] != c['size']:
            say('component size', f"{c['kind']} {c['run']}[{c['leg']}] mine {c['size']} theirs {x['size']}")
        if gap(x) > 3 * tolerance:
            say(f"ports {c['kind']} {c['how'] or ''}", f"{c['run']}[{c['leg']}] mine {c['ports']} theirs {[(at(y), at(y['face'])) for y in x['ports']]}")
    for x in left:
        say('component not mine ' + x['kind'], f"{x['run']}[{x.get('leg')}]")
    w = b = 0
    for y in theirs['joints']:
        if y['kind'] == 'bolted': b += 1
        else: w += 1
        if y['joint'] != (f'B{b}' if y['kind'] == 'bolted' else f'W{w}'):
            say('joint number', y['joint'])
            break
    if not mine.get('names'):
        if [s['spool'] for s in theirs['spools']] != [str(i + 1) for i in range(len(theirs['spools']))]:
            say('spool numbers', str([s['spool'] for s in theirs['spools']]))
        first = {}
        runs_order = [r['run'] for r in theirs['runs']]
        for x in sorted([(runs_order.index(x['run']), x.get('leg', -1), 1, x.get('spool')) for x in theirs['components']] + [(runs_order.index(x['run']), x['leg'], 0, x['spool']) for x in theirs['cuts']], key=lambda t: t[:3]):
            if x[3] is not None and x[3] not in first: first[x[3]] = len(first) + 1
        if any(str(v) != k for k, v in first.items()):
            say('spool order', str(first))
    letters = {}
    for x in theirs['cuts']:
        letters.setdefault(x['spool'], []).append(x['piece'].rsplit('-', 1)[1])
    for s, ls in letters.items():
        want = [chr(65 + i) if i < 26 else chr(64 + i // 26) + chr(65 + i % 26) for i in range(len(ls))]
        if ls != want: say('piece letters', f'{s} {ls}')
    # joints, in order
    key = lambda kind, place, size, between, p: (kind, place, size, tuple(sorted(between)))
    a = [key(j['kind'], j['place'], j['size'], [same.get(b, b) for b in j['between']], j['at']) for j in mine['joints']]
    b = [key(j['kind'], j['place'], j['size'], j['between'], None) for j in theirs['joints']]
    if a != b:
        ca, cb = collections.Counter(a), collections.Counter(b)
        if ca == cb:
            i = next(i for i in range(len(a)) if a[i] != b[i])
            say('joint order', f'{i}: {a[i:i + 3]} {b[i:i + 3]}')
        else:
            say('joints', f'mine only {list((ca - cb).elements())[:4]} theirs only {list((cb - ca).elements())[:4]}')
    else:
        for j, y in zip(mine['joints'], theirs['joints']):
            if j['at'] and far(j['at'], at(y['at'])) > tolerance:
                say(f"joint place {j['kind']}", f"{y['joint']} {j['at']} {at(y['at'])}")
    # spools
    spool = {}
    for s in theirs['spools']:
        names = {x['piece']: x['id'] for x in theirs['cuts']}
        spool[s['spool']] = tuple(sorted([names[p] for p in s['pieces']] + s['components']))
    a = sorted(tuple(sorted(same.get(x, x) for x in g)) for g in mine['spools'])
    b = sorted(spool.values())
    if a != b:
        say('spools', f'mine {[g for g in a if g not in b]} theirs {[g for g in b if g not in a]}')
    named = {f"{x['run']}/{x.get('leg')}": x.get('spool') for x in theirs['components'] if x['kind'] not in ('flange', 'gasket', 'outlet')}
    for where, name in mine.get('names', {}).items():
        if named.get(where) != name:
            say('spool name', f'{where} mine {name} theirs {named.get(where)}')
    stops = [f for f in theirs['findings'] if f['severity'] == 'stop' and f['rule'] not in EXPECTED]
    if stops:
        say('stop ' + stops[0]['rule'], f"line {stops[0].get('line')} {stops[0]['message']}")
    studs = sum(b['count'] for b in theirs['bolting'])
    if studs != mine['studs']:
        say('studs', f"mine {mine['studs']} theirs {studs}")
    # materials
    if mine.get('needed') is not None:
        got = {str(m.get('item', m['what'] + ' ' + m.get('size', ''))): m['needed'] for m in theirs['materials']}
        for item, needed in mine['needed'].items():
            if item not in got or abs(got[item] - needed) > (0.00011 if needed != int(needed) else 0.00006):
                say('needed', f"item {item} mine {needed} theirs {got.get(item)} {[m for m in theirs['materials'] if str(m.get('item')) == item]}")
        for item in got:
            if item not in mine['needed'] and got[item]:
                say('needed but not listed', f"{item} {got[item]} {[m for m in theirs['materials'] if str(m.get('item', m['what'] + ' ' + m.get('size', ''))) == item][:1]}")


def main():
    folder, packets = sys.argv[1], sys.argv[2:]
    with open(folder + '/answers.json') as f:
        kept = json.load(f)
    answers, refused = kept['answers'], kept['refused']
    by = {}
    for p in packets:
        with open(p) as f:
            for d in json.load(f)['drawings']:
                by[d['drawing']] = d
    counts, first = collections.Counter(), collections.defaultdict(list)
    wrong = 0
    for name, mine in answers.items():
        with open(f'{folder}/{name}') as f:
            number = f.readline().split(': ')[1].strip()
        if number not in by:
            counts['no packet'] += 1
            first['no packet'].append(name)
            continue
        kinds = set()
        def say(kind, detail):
            kinds.add(kind)
            if kind not in first or len(first[kind]) < 4:
                first[kind].append(f'{name} {detail}')
        compare(mine, by[number], say)
        for k in kinds: counts[k] += 1
        wrong += bool(kinds)
    for name, why in refused.items():
        with open(f'{folder}/{name}') as f:
            number = f.readline().split(': ')[1].strip()
        if number in by and not any(x['severity'] == 'stop' for x in by[number]['findings']):
            kind = 'not refused: ' + ' '.join(why.split()[:5])
            counts[kind] += 1
            first[kind].append(f'{name} {why}')
    print(f'{len(refused)} that can not be built; {len(answers)} compared, {wrong} differ')
    for k, n in counts.most_common():
        print(f'== {k}: {n}')
        for x in first[k][:4]: print('     ', x[:900])


if __name__ == '__main__':
    main()
