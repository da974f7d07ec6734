"""Draws random drawings that can be built, as a fitter would write them: every work point, unit and notation of the format.

    python3 draw.py FOLDER COUNT [SEED]      writes drawing files and their companions, and answers.json (see answer.py)
"""
import json, math, os, random, sys
from answer import Answer, Unbuildable, TABLES, AXES, add, unit, cross, dot, norm, neg, length, size

BIG = ['2', '2-1/2', '3', '4', '6', '8', '10', '12', '14', '16', '20', '24'] * 3 + ['3-1/2', '5', '18', '22', '26', '30', '36', '48']
SMALL = ['1/2', '3/4', '1', '1-1/4', '1-1/2', '2'] * 4 + ['1/4', '3/8', '2-1/2', '3', '4']
TO_DN = {'1/2': 'DN15', '3/4': 'DN20', '1': 'DN25', '1-1/4': 'DN32', '1-1/2': 'DN40', '2': 'DN50', '2-1/2': 'DN65', '3': 'DN80', '4': 'DN100',
         '6': 'DN150', '8': 'DN200', '10': 'DN250', '12': 'DN300', '14': 'DN350', '16': 'DN400', '20': 'DN500', '24': 'DN600', '3-1/2': 'DN90', '5': 'DN125', '18': 'DN450', '22': 'DN550', '26': 'DN650', '30': 'DN750', '36': 'DN900', '48': 'DN1200',
         '1/4': 'DN8', '3/8': 'DN10'}
HEAD = {v: k for k, v in AXES.items()}


class Drawing:
    def __init__(self, rnd, number):
        self.r, self.number = rnd, number
        r = rnd
        self.units = r.choice(['mm', 'mm', 'in'])
        self.small = r.random() < 0.3
        self.files, self.named, self.count = {}, [], 0
        self.size = r.choice(SMALL if self.small else BIG)
        self.ends = r.choice(['butt', 'socket', 'threaded']) if self.small else 'butt'
        self.schedule = r.choice(['40', '80', 'STD', 'XS'] if self.small or self.ends != 'butt' else ['40', 'STD', 'STD', 'XS', '10S', '20', '80', '160', 'wall'])
        self.cls = r.choice(['150'] * 4 + ['300', '300', '600', '600', '400', '900', '1500', '2500'])
        self.measured = {}
        flange = ['WN', 'WN', 'WN', 'SO', 'LJ']
        if self.small:
            flange += ['SW', 'TH', 'SW', 'TH']
        self.flange = r.choice(flange)
        self.facing = r.choice(['RF', 'RF', 'RF', 'RF', 'FF', 'RTJ']) if self.flange in ('WN', 'SO') else 'RF'
        if self.facing == 'RTJ' and self.flange != 'WN':
            self.facing = 'RF'

    # -- notations
    def len(self, mm, exact=False):
        """About `mm` long, in some notation; what it means is read back by the answer program."""
        r = self.r
        def inch():
            s = max(1, round(mm / 25.4 * 16))
            whole, part = divmod(s, 16)
            g = math.gcd(part, 16) if part else 16
            return whole, (f'{part // g}/{16 // g}' if part else '')
        def written():
            whole, part = inch()
            return f'{whole} {part}'.strip() if whole and part else part or str(whole)
        kinds = ['bare', 'bare', 'bare'] if self.units == 'mm' else ['bare', 'feet', 'feet']
        kind = r.choice(kinds + ['mm', 'm', 'cm', 'feet', 'in', 'inch-dash'])
        if kind == 'bare':
            return str(round(mm)) if self.units == 'mm' and r.random() < 0.7 else f'{mm:.1f}' if self.units == 'mm' else f'{mm / 25.4:.3f}'
        if kind == 'mm': return f'"{mm:.1f} mm"' if r.random() < 0.5 else f'{round(mm)} mm'
        if kind == 'cm': return f'{mm / 10:.1f} cm'
        if kind == 'm': return f'"{mm / 1000:.3f} m"'
        if kind == 'feet':
            whole, part = inch()
            feet, rest = divmod(whole, 12)
            tail = f'{rest} {part}'.strip() if part else str(rest)
            if not feet:
                return f"'{tail}\"'"
            return "'" + f"{feet}''{r.choice(['-', ' ', ''])}{tail}\"" + "'"
        if kind == 'in': return f"'{written()} in'"
        whole, part = inch()
        return f"'{whole}-{part}\"'" if whole and part else f"'{written()}\"'"

    def nps(self, s):
        r = self.r.random()
        if r < 0.2: return TO_DN[s]
        if '-' in s and r < 0.5: return f'"{s.replace("-", " ")}"'
        if r < 0.3: return f'NPS {s}'
        return s

    def dir(self, v):
        v = unit(v)
        for word, a in AXES.items():
            if norm(add(v, a, -1)) < 1e-9:
                return word
        return None

    def vector(self, v, scale):
        names = [('east', 'west'), ('north', 'south'), ('up', 'down')]
        parts = []
        for x, (p, n) in zip(v, names):
            if abs(x) > 1e-9:
                parts.append(f'{p if x > 0 else n}: {abs(x) * scale:g}')
        return '{' + ', '.join(parts) + '}'

    # -- a run, from a point in a direction
    def leg(self, **keys):
        return '      - {' + ', '.join(f'{k.replace("_", " ")}: {v}' for k, v in keys.items() if v is not None) + '}'

    def text(self):
        r = self.r
        lines = [f'drawing: R-{self.number}']
        if r.random() < 0.8: lines.append(f'units: {self.units}')
        else: self.units = 'mm'
        if r.random() < 0.3: lines.append(f'revision: {r.randint(0, 9)}')
        line = [f'size: {self.nps(self.size)}', 'schedule: ' + (f'{{wall: {0.25 if self.units == "in" else 6.3}}}' if self.schedule == 'wall' else self.schedule), f'class: {self.cls}', 'material: A106-B']
        if self.flange != 'WN' or r.random() < 0.3: line.append(f'flange: {self.flange}')
        if self.facing != 'RF': line.append(f'facing: {self.facing}')
        if r.random() < 0.5: line.append('gasket: ' + self.r.choice(['"3.2 mm"', '4.5 mm', "'1/8 in'", '1.6 mm']))
        if self.ends != 'butt': line.append(f'ends: {self.ends}')
        if self.ends != 'butt' and r.random() < 0.4: line.append('fitting class: ' + r.choice(['3000', '6000', '6000', '9000' if self.ends == 'socket' else '2000']))
        lines.append('line: {' + ', '.join(line) + '}')
        shop = []
        if r.random() < 0.6: shop.append('root gap: ' + r.choice(['1.6 mm', '3.2 mm', '"2.4 mm"', "'1/8 in'", '0 mm']))
        if r.random() < 0.5: shop.append('shrinkage: ' + r.choice(['1.6 mm', '0.8 mm', '1.25 mm']))
        if r.random() < 0.2: shop.append('makeup gap: ' + r.choice(['ignored', 'counted']))
        if r.random() < 0.4: shop.append('final fit extra: ' + r.choice(['50 mm', '150 mm', '4 in']))
        if r.random() < 0.2: shop.append('socket gap: ' + r.choice(['2 mm', '1.6 mm', '3 mm']))
        runs = []
        first, nps = self.run('main', None, r.randint(2, 9))
        runs.append(first)
        waiting = [n for n in self.named]
        r.shuffle(waiting)
        for name, way, br, loop in waiting[:4]:
            before = len(self.named)
            text, _ = self.run(f'r{len(runs)}', (name, way, br), r.randint(1, 4))
            del self.named[before:]
            if r.random() < 0.1: runs.insert(0, text)
            else: runs.append(text)
        if self.measured:
            shop.append('measured: {' + ', '.join(f'item {i}: {{take-off: {v}}}' for i, v in self.measured.items()) + '}')
        if shop:
            if r.random() < 0.25:
                self.files[f'shop-{self.number}.yaml'] = ('shop:\n  ' if r.random() < 0.5 else '') + ('\n  ' if 0 else '\n').join(shop) + '\n'
                if self.files[f'shop-{self.number}.yaml'].startswith('shop:'):
                    self.files[f'shop-{self.number}.yaml'] = 'shop:\n  ' + '\n  '.join(shop) + '\n'
                lines.append(f'shop: shop-{self.number}.yaml')
            else:
                lines.append('shop: {' + ', '.join(shop) + '}')
        lines.append('runs:')
        lines += runs
        return '\n'.join(lines) + '\n'

    def square(self, way):
        """A random direction square to `way`: an axis if it can be."""
        axes = [a for a in AXES.values() if abs(dot(a, way)) < 1e-9]
        if axes and self.r.random() < 0.9:
            return self.r.choice(axes)
        v = cross(way, self.r.choice([a for a in AXES.values() if norm(cross(a, way)) > 0.1]))
        return unit(v)

    def run(self, name, frm, count):
        r = self.r
        nps = self.size
        head = [f'  - run: {name}']
        if frm:
            head.append(f'    start: {{from: {frm[0]}}}')
            way, nps = frm[1], frm[2]
            if nps != self.size or r.random() < 0.2:
                head.append(f'    size: {self.nps(nps)}')
        else:
            what = r.choice(['flange', 'flange', 'flange', 'open', 'weld', 'cap'])
            at = '' if r.random() < 0.3 else ', at: {' + ', '.join(f'{w}: {self.len(r.uniform(10, 20000))}' for w in r.sample(['east', 'north', 'up'], r.randint(1, 3))) + '}'
            more = ', bolting: by others' if what == 'flange' and r.random() < 0.2 else ''
            head.append(f'    start: {{to: {what}{at}{more}}}')
            way = r.choice(list(AXES.values()))
        if r.random() < 0.1:
            head.append('    class: ' + r.choice(['150', '300']))
        if r.random() < 0.05: head.append('    schedule: ' + r.choice(['STD', 'XS', '80']))
        if r.random() < 0.05 and self.ends == 'butt': head.append('    flange: ' + r.choice(['WN', 'SO', 'LJ']))
        if r.random() < 0.05: head.append('    gasket: ' + r.choice(['2 mm', '3 mm']))
        legs, slope, skew = [], None, None
        inch = float(size(nps).split('-')[0].split('/')[0]) if '/' not in nps else 1.5
        after_pass = False
        weld_before = False
        for k in range(count):
            last = k == count - 1
            keys = {}
            level = abs(way[2]) < 1e-9
            straight = self.dir(way)
            if slope is None and level and k == 0 and not frm and straight and r.random() < 0.12:
                slope = (r.choice(['fall', 'rise']), r.choice(['1:100', '1:50', '1:300', '1:80', '1:10']))
            # the direction, as it is written
            dist = r.choice([r.uniform(400, 3500), r.uniform(900, 6000), r.uniform(60, 700)]) + inch * 40
            if slope and (abs(way[2]) > 1e-9 or not straight):
                slope = None
            if straight:
                keys['go'] = straight
                keys['by'] = self.len(dist)
            else:
                vec = self.vector(way, 1000)
                keys['go'] = vec
                keys['by'] = self.len(dist)
                if skew is not None and r.random() < 0.5:
                    unit_len = 1000.0
                    s = dist if self.units == 'mm' else dist / 25.4
                    keys['go'] = '{' + ', '.join(f'{p}: {x}' for p, x in self.exact(way, s)) + '}'
                    way2 = [0.0, 0.0, 0.0]
                    for p, x in self.exact(way, s):
                        way2 = add(way2, AXES[p], float(x))
                    if norm(cross(unit(way2), way)) < 1e-12:
                        del keys['by']
                    else:
                        keys['go'] = vec
            if slope:
                keys[slope[0]] = slope[1]
            kinds = ['elbow'] * 6 + ['tee', 'tee', 'reducer', 'outlet', 'outlet', 'stub-in', 'joint', 'valve', 'valve', 'weld', 'point', 'entry']
            if last:
                kinds = ['flange', 'flange', 'flange', 'cap', 'weld', 'open', 'reducer', 'joint', 'valve', 'tee']
            to = r.choice(kinds)
            if weld_before and to in ('weld',):
                to = 'elbow' if not last else 'flange'
            if to == 'entry':
                to = 'tee'
                keys['enter'] = 'branch'
            if self.ends != 'butt' and to in ('reducer', 'stub-in'):
                to = 'elbow' if not last else 'cap'
            keys['to'] = to
            new_way = way
            if to == 'elbow':
                choice = r.random()
                radius = r.choice(['long'] * 5 + ['short', '3d', '5d']) if self.ends == 'butt' else 'long'
                if slope:
                    new_way = r.choice([a for a in AXES.values() if abs(a[2]) < 1e-9 and abs(dot(a, way)) < 1e-9]) if r.random() < 0.7 else r.choice([AXES['up'], AXES['down']])
                    if new_way[2]: slope = None
                elif straight is None and r.random() < 0.6:
                    axes = [a for a in AXES.values() if 0.02 < dot(a, way)]
                    new_way = r.choice(axes)
                elif choice < 0.6:
                    new_way = self.square(way)
                elif choice < 0.8:
                    new_way = unit(add(way, self.square(way)))
                elif self.ends == 'butt':
                    new_way = tuple(a + r.uniform(0.3, 2) * b + r.uniform(0, 1) * c for a, b, c in zip(way, self.square(way), self.square(way)))
                    new_way = unit(tuple(round(x, 2) for x in new_way))
                else:
                    new_way = self.square(way)
                if radius != 'long' or r.random() < 0.1: keys['radius'] = radius
                if self.dir(new_way) is None:
                    # written in whole thousandths: keep just what is written
                    new_way = unit(tuple(float(f'{abs(x) * 1000:g}') * (1 if x > 0 else -1) if abs(x) > 1e-9 else 0.0 for x in new_way))
                    skew = True
            elif to == 'tee':
                if keys.get('enter'):
                    new_way = self.square(way)
                    if self.dir(new_way) is None or slope:
                        new_way = None
                    if new_way is None:
                        del keys['enter']; new_way = way
                if keys.get('enter'):
                    keys['name'] = self.name()
                    if r.random() < 0.7: self.named.append((keys['name'], neg(new_way), nps, False))
                    if last: del keys['enter']
                if not keys.get('enter'):
                    b = self.square(way) if not slope else self.level_square(way)
                    keys['branch'] = self.dir(b) or self.vector(b, 1)
                    if self.dir(b) is None and self.units: keys['branch'] = self.vector(b, 1000)
                    br = nps
                    if self.ends == 'butt' and r.random() < 0.4:
                        cand = [n2 for (i, a, n1, n2, s, c) in TABLES.rows if i == 'reducing tee' and a == 'M' and n1 == nps and n2 in TO_DN]
                        if cand:
                            br = r.choice(cand); keys['branch_size'] = self.nps(br)
                    if r.random() < 0.8:
                        keys['name'] = self.name()
                        self.named.append((keys['name'], self.asread(b), br, False))
            elif to in ('outlet', 'stub-in'):
                b = self.square(way) if not slope else self.level_square(way)
                keys['branch'] = self.dir(b) or self.vector(b, 1000)
                pool = [s for s in SMALL + BIG if inch_of(s) < inch_of(nps)] or None
                if pool is None or last:
                    keys['to'] = 'point' if not last else 'flange'
                    keys.pop('branch')
                    if last: pass
                else:
                    br = r.choice(pool)
                    keys['size'] = self.nps(br)
                    if to == 'outlet' and inch_of(br) <= 2 and r.random() < 0.5: keys['ends'] = r.choice(['socket', 'threaded'])
                    if to == 'stub-in' and r.random() < 0.4: keys['pad'] = r.choice(['yes', 'no'])
                    keys['name'] = self.name()
                    self.named.append((keys['name'], self.asread(b), br, False))
            elif to == 'reducer':
                cand = [n2 for (i, a, n1, n2, s, c) in TABLES.rows if i == 'reducer' and n1 == nps and n2 in TO_DN] + [n1 for (i, a, n1, n2, s, c) in TABLES.rows if i == 'reducer' and n2 == nps and n1 in TO_DN]
                if not cand: return self.run(name, frm, count)
                new = r.choice(cand)
                keys['size'] = self.nps(new)
                nps_next = new
                if r.random() < 0.3: keys['kind'] = 'concentric'
                elif r.random() < 0.5 and self.dir(way) and not slope:
                    keys['kind'] = 'eccentric'
                    flat = self.square(way)
                    word = self.dir(flat)
                    keys['flat'] = {'up': 'top', 'down': 'bottom'}.get(word, word) if r.random() < 0.7 else word
                    if word is None: del keys['flat'], keys['kind']
            elif to == 'flange':
                if r.random() < 0.2: keys['bolting'] = 'by others'
            elif to == 'valve':
                keys['kind'] = r.choice(['gate', 'globe', 'check', 'ball', 'butterfly'])
                e = r.random()
                if self.small and self.ends != 'butt' and e < 0.6:
                    keys['ends'] = self.ends; keys['face_to_face'] = self.len(r.uniform(70, 160))
                elif e < 0.2 and self.ends == 'butt' and keys['kind'] != 'butterfly':
                    keys['ends'] = 'butt'
                elif e < 0.4:
                    keys['face_to_face'] = self.len(r.uniform(100, 400))
                if self.facing == 'RTJ' and 'ends' not in keys and 'face_to_face' not in keys:
                    keys['face_to_face'] = self.len(r.uniform(150, 500))
            elif to == 'open':
                keys['ends'] = r.choice(['bevel', 'plain', 'threaded', None])
            # fitting to fitting
            passed = keys['to'] in ('outlet', 'stub-in', 'point')
            if not passed and not after_pass and not weld_before and self.ends == 'butt' and keys['to'] in ('elbow', 'tee', 'reducer', 'flange', 'joint', 'cap') and k > 0 and r.random() < 0.15 and not slope:
                keys['by'] = 'makeup'
            if keys.get('by') == 'makeup' and isinstance(keys['go'], str) and keys['go'].startswith('{'):
                pass
            # welds
            place = lambda: r.choice(['shop', 'field', 'field', 'final-fit'])
            if not after_pass and not weld_before and keys.get('by') != 'makeup' and r.random() < 0.12: keys['begin'] = place()
            if not passed and keys['to'] != 'open' and r.random() < 0.25: keys['end'] = place() if keys.get('by') != 'makeup' else r.choice(['shop', 'field'])
            if weld_before and 'end' not in self.last and r.random() < 0.3: keys['begin'] = place()
            if 'threaded' in (self.ends, keys.get('ends')) or self.flange == 'TH':
                for key in ('begin', 'end'):
                    if keys.get(key) == 'final-fit': keys[key] = 'field'
            if r.random() < 0.05 and 'item' not in keys and (keys['to'] in ('cap', 'elbow') or keys['to'] == 'flange' and self.flange == 'WN'):
                keys['item'] = 900 + len(self.measured)
                self.measured[keys['item']] = r.choice([f'{r.uniform(20, 90) + 20 * inch_of(nps):.1f} mm', "'2 1/2 in'"])
                self.owned = getattr(self, 'owned', {})
            # a value of its own
            if r.random() < 0.05 and keys['to'] in ('flange', 'joint', 'valve'): keys['class'] = r.choice(['150', '300'])
            if r.random() < 0.04 and keys['to'] in ('flange', 'joint'): keys['flange'] = r.choice(['SO', 'WN'])
            if r.random() < 0.04 and keys['to'] in ('elbow', 'flange') and not after_pass: keys['schedule'] = r.choice(['STD', 'XS', '80'])
            order = ['go', 'by', 'to']
            legs.append(self.leg(**{**{k2: keys[k2] for k2 in order if k2 in keys}, **{k2: v for k2, v in keys.items() if k2 not in order}}))
            self.last = keys
            after_pass = passed
            weld_before = keys['to'] == 'weld'
            if to == 'reducer': nps = nps_next
            way = new_way
        return '\n'.join(head + ['    legs:'] + legs), nps

    def exact(self, way, s):
        names = [('east', 'west'), ('north', 'south'), ('up', 'down')]
        m = max(abs(x) for x in way)
        out = []
        for x, (p, n) in zip(way, names):
            if abs(x) > 1e-9:
                out.append((p if x > 0 else n, f'{abs(x) / m * round(s):.6f}'.rstrip('0').rstrip('.')))
        return out

    def asread(self, b):
        if self.dir(b): return b
        return unit(tuple(float(f'{abs(x) * 1000:g}') * (1 if x > 0 else -1) if abs(x) > 1e-9 else 0.0 for x in b))

    def level_square(self, way):
        return self.r.choice([a for a in AXES.values() if abs(a[2]) < 1e-9 and abs(dot(a, way)) < 1e-9])

    def name(self):
        self.count += 1
        return f'N{self.count}'


def inch_of(s):
    s = s.replace('-', ' ')
    return sum(float(p) if '/' not in p else float(p.split('/')[0]) / float(p.split('/')[1]) for p in s.split())


def corner(rnd, number):
    """Distances within and just beyond half a millimetre of fitting to fitting; a weld marked by the leg before, the leg after, or both."""
    units = rnd.choice(['mm', 'in'])
    nps = rnd.choice(BIG[:9])
    column = 1 if units == 'in' else 0
    scale = 25.4 if units == 'in' else 1
    a = TABLES.rows[('elbow 90 LR', 'A', nps, '', '', '')][column] * scale
    c = TABLES.rows[('tee', 'C', nps, '', '', '')][column] * scale
    gap = rnd.choice([3.2, 1.6, 2.4])
    ignored = rnd.random() < 0.3
    off = rnd.choice([-0.49, -0.3, 0, 0, 0.2, 0.49, 0.51, 2 * gap, 2 * gap + 1, 40])
    by = a + c + (0 if ignored else gap) + off
    mark = rnd.choice(['', ', end: field', ', end: shop'])
    one, two = rnd.choice([('', ''), (', end: field', ''), ('', ', begin: field'), (', end: final-fit', ''), ('', ', begin: final-fit'), (', end: field', ', begin: field')])
    w, s = rnd.sample(['east', 'north', 'up'], 2)
    return '\n'.join([f'drawing: K-{number}', f'units: {units}', f'line: {{size: {nps}, schedule: STD}}',
        f'shop: {{root gap: {gap} mm, makeup gap: {"ignored" if ignored else "counted"}, shrinkage: {rnd.choice([0, 1.6])} mm}}', 'runs:',
        '  - run: main', f'    start: {{to: {rnd.choice(["flange", "weld", "open", "cap"])}}}', '    legs:',
        f'      - {{go: {w}, by: 2500 mm, to: weld{one}}}', f'      - {{go: {w}, by: 1900 mm, to: elbow{two}}}',
        f'      - {{go: {s}, by: {by:.4f} mm, to: tee, branch: {w}, name: N1{mark}}}', f'      - {{go: {s}, by: 1 m, to: {rnd.choice(["weld", "flange", "cap"])}}}',
        '  - run: b', '    start: {from: N1}', '    legs:', f'      - {{go: {w}, by: {rnd.choice([900, 1200])} mm, to: flange{rnd.choice(["", ", begin: field", ", begin: final-fit, end: final-fit"])}}}']) + '\n', {}


def loop(rnd, number):
    """Two branches of one header, joined by a run that ends at the second: a closed loop."""
    d = Drawing(rnd, number)
    d.ends, d.small, d.flange, d.facing = 'butt', False, 'WN', 'RF'
    d.schedule = 'STD'
    d.size = rnd.choice(BIG)
    a, b = rnd.choice(['tee', 'outlet', 'stub-in']), rnd.choice(['tee', 'outlet', 'stub-in'])
    br = rnd.choice([s for s in SMALL[1:] + BIG if inch_of(s) < inch_of(d.size)] or ['1'])
    big = inch_of(d.size)
    if 'tee' in (a, b):
        cand = [n2 for (i, t, n1, n2, s, c) in TABLES.rows if i == 'reducing tee' and t == 'M' and n1 == d.size and n2 in TO_DN]
        br = rnd.choice(cand)
    way = rnd.choice(list(AXES.values()))
    side = d.square(way)
    w, s = d.dir(way), d.dir(side)
    if not s: return None
    x = round(rnd.uniform(1500, 4000))
    y = round(rnd.uniform(1200, 3000))
    def point(kind, name):
        return (f'to: tee, branch: {s}, branch size: {br}, name: {name}' if kind == 'tee' else f'to: {kind}, branch: {s}, size: {br}, name: {name}')
    mid = round(x * rnd.uniform(0.3, 0.7))
    parts = [f'{{go: {w}, by: {mid} mm, to: point}}', f'{{go: {w}, by: {x - mid} mm, {point(b, "B")}}}'] if rnd.random() < 0.5 else [f'{{go: {w}, by: {x / 1000} m, {point(b, "B")}}}']
    end = rnd.choice(['', ', end: field', ', end: final-fit'])
    back = d.dir(neg(side))
    text = [f'drawing: L-{number}', f'units: {rnd.choice(["mm", "in"])}', f'line: {{size: {d.size}, schedule: STD, class: {d.cls}}}', 'runs:',
            '  - run: header', f'    start: {{to: {rnd.choice(["flange", "cap", "open"])}}}', '    legs:',
            f'      - {{go: {w}, by: {round(rnd.uniform(1200, 3000))} mm, {point(a, "A")}}}'] + ['      - ' + p for p in parts] + [
            f'      - {{go: {w}, by: 2 m, to: flange}}',
            '  - run: bypass', f'    size: {br}', '    start: {from: A}', '    legs:',
            f'      - {{go: {s}, by: {y} mm, to: elbow}}', f'      - {{go: {w}, by: {x} mm, to: elbow}}',
            f'      - {{go: {back}, by: {y} mm, to: tie-in, with: B{end}}}']
    return '\n'.join(text) + '\n', {}


def restyle(text, rnd):
    """The same file in another hand: block mappings, other orders of keys, comments, line ends."""
    lines = []
    for line in text.split('\n'):
        if line.startswith('      - {') and rnd.random() < 0.4:
            parts, depth, quote, now = [], 0, '', ''
            for ch in line[9:-1]:
                if quote: quote = '' if ch == quote else quote
                elif ch in '\'"': quote = ch
                elif ch == '{': depth += 1
                elif ch == '}': depth -= 1
                if ch == ',' and not depth and not quote:
                    parts.append(now.strip()); now = ''
                else: now += ch
            parts.append(now.strip())
            if rnd.random() < 0.5: rnd.shuffle(parts)
            if rnd.random() < 0.5:
                lines.append('      - {' + ', '.join(parts) + '}')
            else:
                lines.append('      - ' + parts[0])
                lines += ['        ' + p for p in parts[1:]]
        elif rnd.random() < 0.03 and line:
            lines.append(line + '   # as the foreman said')
        else: lines.append(line)
    if rnd.random() < 0.1: lines.insert(1, ''); lines.insert(1, '# a comment: with a colon')
    return ('\r\n' if rnd.random() < 0.1 else '\n').join(lines)


def make(seed, number):
    """A drawing's text, its companion files, its answer: or None where the throw can't be built."""
    rnd = random.Random(seed)
    throw = rnd.random()
    if throw < 0.08:
        made = loop(rnd, number) if throw < 0.05 else corner(rnd, number)
        if made is None: return None
        text, files = made
    else:
        d = Drawing(rnd, number)
        text = d.text()
        files = d.files
    try:
        import tempfile
        with tempfile.TemporaryDirectory() as folder:
            for name, body in files.items():
                with open(os.path.join(folder, name), 'w', encoding='utf-8') as f: f.write(body)
            answer = Answer(text, folder)
    except Unbuildable as no:
        return str(no), text, files
    return text, files, answer, rnd


def main():
    folder, count = sys.argv[1], int(sys.argv[2])
    seed = int(sys.argv[3]) if len(sys.argv) > 3 else 1
    os.makedirs(folder, exist_ok=True)
    answers, refused, n = {}, {}, 0
    while n < count:
        seed += 1
        made = make(seed, n)
        if made is None: continue
        if len(made) == 3:          # can't be built: a few are kept, to see that the engine says so
            if seed % 5 == 0:
                why, text, files = made
                name = f'u{seed:07}.yaml'
                text = text.replace(text.split('\n')[0], f'drawing: U-{seed}', 1)
                text = text.replace(f'shop: shop-{n}.yaml', f'shop: shop-u{seed}.yaml')
                files = {fname.replace(f'shop-{n}', f'shop-u{seed}'): body for fname, body in files.items()}
                for fname, body in {**files, name: text}.items():
                    with open(os.path.join(folder, fname), 'w', encoding='utf-8', newline='') as f: f.write(body)
                refused[name] = why
            continue
        text, files, answer, rnd = made
        name = f'd{n:05}.yaml'
        from stock import materials
        text, files = materials(text, files, answer, rnd, n)
        for fname, body in {**files, name: text}.items():
            with open(os.path.join(folder, fname), 'w', encoding='utf-8', newline='') as f: f.write(body)
        text = restyle(text, rnd)
        answers[name] = {**answer.result(), 'needed': answer.needed, 'names': answer.spool_names}
        n += 1
    with open(os.path.join(folder, 'answers.json'), 'w', encoding='utf-8') as f:
        json.dump({'answers': answers, 'refused': refused}, f)
    print(f'{n} drawings; last seed {seed}')


if __name__ == '__main__':
    main()
