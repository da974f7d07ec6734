"""Works out a drawing's answers from the words of the drawing format alone.

A second opinion: written without the engine, in another language, as literally as the format's text allows.
Plain python3 and PyYAML; the dimensions are the project's CSV tables (which have checks of their own).
Lengths are millimetres inside. See README.md beside this file.
"""
import csv, math, os, re, sys, json
import yaml

DATA = os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', '..', 'src', 'Rootgap', 'Standards', 'Data')
AXES = {'east': (1, 0, 0), 'west': (-1, 0, 0), 'north': (0, 1, 0), 'south': (0, -1, 0), 'up': (0, 0, 1), 'down': (0, 0, -1)}
DN = {6: '1/8', 8: '1/4', 10: '3/8', 15: '1/2', 20: '3/4', 25: '1', 32: '1-1/4', 40: '1-1/2', 50: '2', 65: '2-1/2', 80: '3', 90: '3-1/2'}


class Unbuildable(Exception):
    """The drawing can't be built as written, or leaves this program's field."""


# ---- values (format 1.1) -------------------------------------------------------------------------------------------

def number(text):
    text = text.strip()
    m = re.fullmatch(r'(?:(\d+)[ -]+)?(\d+)/(\d+)', text)
    if m:
        return int(m[1] or 0) + int(m[2]) / int(m[3])
    return float(text)


def length(text, units):
    text = str(text).strip()
    sign = -1 if text.startswith('-') else 1
    text = text.lstrip('+-').strip()
    m = re.fullmatch(r"(.+?)'\s*-?\s*(?:(.+?)\s*\")?", text)
    if m:
        return sign * 25.4 * (12 * number(m[1]) + (number(m[2]) if m[2] else 0))
    for end, scale in (('"', 25.4), ('in', 25.4), ('mm', 1), ('cm', 10), ('m', 1000)):
        if text.endswith(end):
            return sign * scale * number(text[:-len(end)])
    return sign * number(text) * (25.4 if units == 'in' else 1)


def size(text):
    text = str(text).strip()
    if text.upper().startswith('DN'):
        dn = int(text[2:])
        return DN.get(dn) or str(dn // 25)
    if text.upper().startswith('NPS'):
        text = text[3:].strip()
    text = text.rstrip('"')
    m = re.fullmatch(r'(\d+)[ -](\d+)/(\d+)', text)
    return f'{m[1]}-{m[2]}/{m[3]}' if m else text


def inches(nps):
    return number(nps)


# ---- vectors -------------------------------------------------------------------------------------------------------

def add(a, b, k=1.0): return tuple(x + k * y for x, y in zip(a, b))
def dot(a, b): return sum(x * y for x, y in zip(a, b))
def norm(a): return math.sqrt(dot(a, a))
def unit(a): n = norm(a); return tuple(x / n for x in a)
def neg(a): return tuple(-x for x in a)


def cross(a, b):
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def angle(a, b):
    return math.degrees(math.atan2(norm(cross(a, b)), dot(a, b)))


# ---- tables --------------------------------------------------------------------------------------------------------

class Tables:
    def __init__(self):
        self.rows = {}
        for name in ('pipe', 'butt-weld', 'flanges', 'studs', 'valves', 'forged', 'outlets', 'threads'):
            with open(os.path.join(DATA, name + '.csv'), encoding='utf-8') as f:
                for r in csv.DictReader(f):
                    key = (r['item'], r['attribute'], r['nps'], r['nps2'], r['schedule'], r['class'])
                    self.rows[key] = (float(r['value_mm']) if r['value_mm'] else None, float(r['value_in']) if r['value_in'] else None)

    def get(self, units, item, attribute, nps, nps2='', schedule='', cls='', need=True):
        row = self.rows.get((item, attribute, nps, nps2, schedule, cls))
        value = None if row is None else (row[1] * 25.4 if row[1] is not None else None) if units == 'in' else row[0]
        if value is None and row is not None and row[1] is not None:
            value = row[1] * 25.4           # a standard that prints inches only
        if value is None and need:
            raise Unbuildable(f'no {attribute} of {item} {nps} {nps2} {schedule} {cls}')
        return value


TABLES = Tables()


# ---- the drawing ---------------------------------------------------------------------------------------------------

class Port:
    """What a pipe meets at a work point: how, and how far from the point."""
    def __init__(self, how, takeoff, comp=None, at=None):
        self.how, self.takeoff, self.comp, self.at = how, takeoff, comp, at   # how: butt socket fillet threaded weld open branch


class Answer:
    def __init__(self, text, folder='.'):
        d = yaml.load(text, Loader=yaml.BaseLoader)
        self.d = d
        self.units = d.get('units', 'mm')
        shop = d.get('shop', {})
        shop_units = self.units
        if isinstance(shop, str):
            with open(os.path.join(folder, shop), encoding='utf-8') as f:
                shop = yaml.load(f, Loader=yaml.BaseLoader)
            shop_units = shop.get('units', 'mm')
            shop = shop.get('shop', shop)
        s = lambda key, otherwise: length(shop[key], shop_units) if key in shop else otherwise
        self.gap, self.shrinkage, self.extra = s('root gap', 3.2), s('shrinkage', 0.0), s('final fit extra', 100.0)
        self.socket_gap, self.branch_gap, self.outlet_gap = s('socket gap', 1.6), s('branch gap', self.gap), s('outlet gap', 0.0)
        self.makeup_gap = 0.0 if shop.get('makeup gap') == 'ignored' else self.gap
        self.measured = {int(k.replace('item', '')): length(v['take-off'], shop_units) for k, v in shop.get('measured', {}).items()}
        self.bolting, self.pads = [], []
        self.comps, self.pipes, self.joints, self.names, self.points = [], [], [], {}, {}
        self.links = []
        runs = d['runs']
        self.done = set()
        self.places = {}           # run -> leg -> joints, put in order at the end
        pending = list(range(len(runs)))
        while pending:             # a run may start from a name that stands in a later run
            for i in list(pending):
                frm = runs[i]['start'].get('from')
                if frm is None or frm in self.names:
                    self.run(i, runs[i])
                    pending.remove(i)
                    break
            else:
                raise Unbuildable('runs start from names that are not there')
        self.stud_count = sum(self.studs(*b)[1] for b in self.bolting)
        self.joints.sort(key=lambda j: j['order'])
        self.spools()

    def t(self, *a, **k):
        return TABLES.get(self.units, *a, **k)

    # -- a line's values for a leg
    def line(self, run, leg):
        line = {'schedule': '', 'class': '150', 'flange': 'WN', 'facing': 'RF', 'ends': 'butt', 'fitting class': '3000'}
        for level, source in enumerate((self.d['line'], run, leg)):
            for key in ('schedule', 'class', 'flange', 'facing', 'gasket', 'ends', 'fitting class', 'material'):
                if key in source and not (level == 2 and key == 'ends' and source.get('to') in ('open', 'valve', 'outlet')):
                    line[key] = source[key]
        return line

    def wall(self, line, nps):
        sch = line['schedule']
        if isinstance(sch, dict):
            return length(sch['wall'], self.units)
        return self.t('pipe', 'wall', nps, schedule=sch)

    def od(self, nps):
        return self.t('pipe', 'outside diameter', nps)

    def engagement(self, nps):
        return self.t('thread NPT', 'normal engagement', nps)

    def gasket(self, line, nps):
        if 'gasket' in line:
            return length(line['gasket'], self.units)
        return self.t('flange RTJ', 'ring stand-off', nps, cls=line['class']) if line['facing'] == 'RTJ' else 3.2

    def flange_takeoff(self, line, nps, item=None):
        """Contact face to where the pipe ends (or the weld end), and how it is joined."""
        kind, cls = line['flange'], line['class']
        self.t('flange ' + kind, 'length through hub', nps, cls=cls)       # one that is in no table can't be had
        how = {'WN': 'butt', 'SO': 'fillet', 'SW': 'socket', 'TH': 'threaded', 'LJ': 'butt'}[kind]
        if item in self.measured and kind != 'SO':
            return how, self.real(how, self.measured[item], nps)
        if kind == 'LJ':
            return how, self.t('stub end', 'F long', nps)
        if kind == 'SO':
            return how, min(self.wall(line, nps), 6) + 1.6
        through = self.t('flange ' + kind, 'length through hub', nps, cls=cls)
        if line['facing'] == 'RTJ':     # the contact face is the extreme face
            through += self.t('flange RTJ', 'groove depth', nps, cls=cls) - self.t('flange', 'raised face height', nps, cls=cls)
        elif line['facing'] == 'FF' and int(cls) >= 400:
            through -= self.t('flange', 'raised face height', nps, cls=cls)
        if kind == 'SW':
            through += self.socket_gap - self.t('flange SW', 'socket depth', nps, cls=cls)
        if kind == 'TH':
            through -= self.engagement(nps)
        return how, through

    def real(self, how, measured, nps):
        """A measured take-off replaces the table's figure: the gap off the socket's bottom and the engagement stay."""
        return measured + (self.socket_gap if how == 'socket' else -self.engagement(nps) if how == 'threaded' else 0.0)

    def fitting(self, line, nps, what, item=None):
        """Take-off of a forged fitting (socket or threaded)."""
        if item in self.measured:
            return self.real(line['ends'], self.measured[item], nps)
        cls = line['fitting class']
        if line['ends'] == 'socket':
            return self.t('SW ' + what, 'centre to socket bottom', nps, cls=cls) + self.socket_gap
        return self.t('TH ' + what, 'centre to end', nps, cls=cls) - self.engagement(nps)

    def radius(self, nps, word):
        if word == '5d':
            return 5 * inches(nps) * 25.4
        return self.t('elbow 90 ' + {'long': 'LR', 'short': 'SR', '3d': '3D'}[word], 'A', nps)

    def elbow(self, line, nps, turn, word, item=None):
        if turn < 0.25 or turn > 90.25:
            raise Unbuildable(f'turn of {turn:.2f}')
        stock = 90 if abs(turn - 90) <= 0.25 else 45 if abs(turn - 45) <= 0.25 else None
        if line['ends'] != 'butt':
            if stock is None:
                raise Unbuildable('a forged elbow is not cut')
            return self.fitting(line, nps, f'elbow {stock}', item), stock, False
        if item in self.measured and (stock == 90 or stock == 45 and word != 'short' or word == '5d'):   # a cut elbow is not what was measured
            self.radius(nps, word)
            return self.measured[item], stock or turn, stock is None
        if word == '5d':
            r = self.radius(nps, word)
            return (r if stock == 90 else r * math.tan(math.radians(turn) / 2)), (stock or turn), stock is None
        if stock == 90:
            return self.radius(nps, word), 90, False
        if stock == 45 and word != 'short':
            return self.t('elbow 45 ' + {'long': 'LR', '3d': '3D'}[word], 'B', nps), 45, False
        return self.radius(nps, word) * math.tan(math.radians(turn) / 2), turn, True

    # -- how a material list calls it: words, size, class
    def elbow_ware(self, line, nps, turn, word):
        if line['ends'] != 'butt':
            return f"elbow {90 if abs(turn - 90) <= 0.25 else 45} {'SW' if line['ends'] == 'socket' else 'THD'}", nps, line['fitting class']
        if word == '5d':
            return 'bend 5D', nps, ''
        of = 45 if turn <= 45.25 and word != 'short' else 90
        return f'elbow {of} ' + {'long': 'LR', 'short': 'SR', '3d': '3D'}[word], nps, ''

    def tee_ware(self, line, run, branch):
        if line['ends'] != 'butt':
            return 'tee ' + ('SW' if line['ends'] == 'socket' else 'THD'), run, line['fitting class']
        return ('tee', run, '') if run == branch else ('reducing tee', f'{run} x {branch}', '')

    def gasket_word(self, line):
        return {'RF': 'gasket spiral wound', 'FF': 'gasket flat full face', 'RTJ': 'ring gasket RTJ'}[line['facing']]

    def studs(self, line, nps, sets=1):
        """Number and size of the studs of a joint, as a ware."""
        return self.t('flange', 'bolt diameter', nps, cls=line['class']), int(TABLES.rows[('flange', 'holes', nps, '', '', line['class'])][0]) * sets

    def beyond(self, how, what, nps, cls):
        """From where the pipe ends to the face of a socket or threaded end."""
        if how == 'socket':
            return self.t(what, 'socket depth', nps, cls=cls) - self.socket_gap
        return self.engagement(nps) if how == 'threaded' else 0.0

    def comp(self, kind, run, leg, nps, ports, **more):
        c = {'kind': kind, 'run': run, 'leg': leg, 'size': nps, 'ports': ports, **more}
        self.comps.append(c)
        return ('C', len(self.comps) - 1)

    def joint(self, order, kind, place, nps, between, at):
        self.joints.append({'order': order, 'kind': kind, 'place': place, 'size': nps, 'between': between, 'at': at})

    # -- geometry of a leg
    def direction(self, leg):
        go = leg['go']
        if isinstance(go, str):
            v = AXES[go]
        else:
            v = (0.0, 0.0, 0.0)
            for word, value in go.items():
                v = add(v, AXES[word], length(value, self.units))
        slope = 0.0
        for key, sign in (('fall', -1), ('rise', 1)):
            if key in leg:
                a, b = leg[key].split(':')
                slope = sign * number(a) / number(b)
        level = unit(v)
        d = (level[0], level[1], level[2] + slope)
        return v, d                 # d: per unit of `by`

    def way(self, leg):
        return unit(self.direction(leg)[1])

    # -- one run
    def run(self, index, run):
        name, legs = run['run'], run['legs']
        start = run['start']
        nps = size(run.get('size', self.d['line']['size']))
        order = lambda k, n: (index, k, n)
        first = self.way(legs[0])
        line0 = self.line(run, {})
        sitem = int(start['item']) if 'item' in start else None
        if 'from' in start:
            free = self.names[start['from']]
            pos, nps, port = free['at'], free['size'], free['port']
            if angle(first, free['way']) > 0.01:
                raise Unbuildable('a run leaves its branch another way')
            if free.get('used'):
                raise Unbuildable('a free end takes one run')
            free['used'] = True
            if 'on' in free:
                port = Port('branch', port.takeoff, port.comp)
                port.header = free
        else:
            at = start.get('at', {})
            pos = (0.0, 0.0, 0.0)
            for word, value in at.items():
                pos = add(pos, AXES[word], length(value, self.units))
            what = start['to']
            if what == 'flange':
                port = self.end_flange(order(-1, 0), name, None, nps, line0, pos, first, start, sitem)
            elif what == 'cap':
                line0['ends'] = start.get('ends', line0['ends'])
                port = self.end_cap(name, None, nps, line0, pos, first, sitem)
            elif what == 'weld':
                port = Port('weld', 0.0, ('X', 'existing'), pos)
            else:
                port = Port('open', 0.0)
        self.points[name] = [pos]
        pending = None      # a pipe that runs on through points and outlets
        for k, leg in enumerate(legs):
            line = self.line(run, leg)
            v, per = self.direction(leg)
            way = unit(per)
            to = leg['to']
            item = int(leg['item']) if 'item' in leg else None
            nxt = self.way(legs[k + 1]) if k + 1 < len(legs) else None
            if to not in ('elbow', 'tee') and nxt is not None and angle(way, nxt) > 0.05:
                raise Unbuildable('the line turns without a fitting')
            makeup = leg.get('by') == 'makeup'
            dist = None
            if not makeup:
                by = length(leg['by'], self.units) if 'by' in leg else norm(v)
                dist = by * norm(per)
            # what stands at the end: the port that faces this leg; the component is placed when the point is known
            new_nps, after, make = nps, None, None
            if to == 'elbow':
                turn = angle(way, nxt)
                off, stock, cut = self.elbow(line, nps, turn, leg.get('radius', 'long'), item)
                how = {'butt': 'butt', 'socket': 'socket', 'threaded': 'threaded'}[line['ends']]
                into = Port(how, off)
                def make(q, off=off, stock=stock, turn=turn, cut=cut, how=how, line=line):
                    e = off + self.beyond(how, 'SW elbow %s' % stock, nps, line['fitting class'])
                    c = self.comp('elbow', name, k, nps, [(add(q, way, -e), neg(way)), (add(q, nxt, e), nxt)], angle=turn, cut=cut, item=item, ware=self.elbow_ware(line, nps, turn, leg.get('radius', 'long')))
                    into.comp = c
                    return Port(how, off, c)
            elif to == 'tee':
                how = line['ends']
                run_nps = size(leg['size']) if leg.get('enter') == 'branch' and 'size' in leg else nps
                br_nps = nps if leg.get('enter') == 'branch' else size(leg['branch size']) if 'branch size' in leg else nps
                if how != 'butt':
                    c_run = c_br = self.fitting(line, run_nps, 'tee', item)
                    if run_nps != br_nps:
                        raise Unbuildable('forged reducing tee')
                elif run_nps != br_nps:
                    c_run, c_br = (self.t('reducing tee', a, run_nps, br_nps) for a in 'CM')
                else:
                    c_run, c_br = (self.t('tee', a, nps) for a in 'CM')
                if leg.get('enter') == 'branch':
                    if abs(angle(way, nxt) - 90) > 0.05:
                        raise Unbuildable('a tee branches square')
                    into = Port(how, c_br)
                    new_nps = run_nps
                    def make(q, how=how, c_run=c_run, c_br=c_br, line=line):
                        e = self.beyond(how, 'SW tee', run_nps, line['fitting class'])
                        c = self.comp('tee', name, k, run_nps, [(add(q, way, -c_br - e), neg(way)), (add(q, nxt, c_run + e), nxt), (add(q, nxt, -c_run - e), neg(nxt))], ware=self.tee_ware(line, run_nps, br_nps), item=item)
                        into.comp = c
                        if 'name' in leg:
                            self.names[leg['name']] = {'at': q, 'size': run_nps, 'way': neg(nxt), 'port': Port(how, c_run, c)}
                        return Port(how, c_run, c)
                else:
                    if nxt is not None and angle(way, nxt) > 0.05:
                        raise Unbuildable('the run goes straight on through a tee')
                    b = self.branch(leg, way)
                    into = Port(how, c_run)
                    def make(q, how=how, c_run=c_run, c_br=c_br, b=b, br_nps=br_nps, line=line):
                        e = self.beyond(how, 'SW tee', nps, line['fitting class'])
                        c = self.comp('tee', name, k, nps, [(add(q, way, -c_run - e), neg(way)), (add(q, way, c_run + e), way), (add(q, b, c_br + e), b)], ware=self.tee_ware(line, run_nps, br_nps), item=item)
                        into.comp = c
                        if 'name' in leg:
                            self.names[leg['name']] = {'at': q, 'size': br_nps, 'way': b, 'port': Port(how, c_br, c)}
                        return Port(how, c_run, c)
            elif to == 'reducer':
                new_nps = size(leg['size'])
                big, small = sorted((nps, new_nps), key=inches, reverse=True)
                h = self.measured.get(item) or self.t('reducer', 'H', big, small)
                into = Port('butt', h)
                def make(q, h=h, big=big, small=small):
                    q = add(q, self.step, -1)      # back on the centreline before the step
                    far = add(q, self.step)
                    c = self.comp('reducer', name, k, big, [(add(q, way, -h), neg(way)), (far, way)], item=item, ware=('reducer ' + leg.get('kind', 'concentric'), f'{big} x {small}', ''))
                    into.comp = c
                    return Port('butt', 0.0, c)
            elif to in ('outlet', 'stub-in'):
                into = None
                b = self.branch(leg, way)
                br = size(leg['size'])
                half = self.od(nps) / 2 + (self.outlet_gap if to == 'outlet' else 0.0)
                if to == 'outlet':
                    ends = leg.get('ends', 'butt')
                    if item in self.measured:
                        height = self.measured[item]
                    elif ends == 'butt':
                        height = self.t('outlet butt', 'height', br, schedule=self.outlet_schedule(line, br))
                    else:
                        height = self.t('outlet ' + ends, 'height', br, cls=line['fitting class'])
                        height += self.socket_gap - self.t('outlet socket', 'socket depth', br, cls=line['fitting class']) if ends == 'socket' else -self.engagement(br)
                    def make(q, b=b, half=half, height=height, ends=ends, br=br, line=line):
                        e = self.beyond(ends, 'outlet socket', br, line['fitting class'])
                        c = self.comp('outlet', name, k, br, [(add(q, b, half), neg(b)), (add(q, b, half + height + e), b)], item=item, ware=('outlet ' + ends, f'{br} x {nps}', '' if ends == 'butt' else line['fitting class']))
                        if 'name' in leg:
                            self.names[leg['name']] = {'at': q, 'size': br, 'way': b, 'port': Port(ends, half + height, c)}
                        return c
                else:
                    def make(q, b=b, half=half, br=br):
                        if leg.get('pad') == 'yes':
                            self.pads.append((name, k, br))
                        if 'name' in leg:
                            self.names[leg['name']] = {'at': q, 'size': br, 'way': b, 'port': Port('branch', half + self.branch_gap), 'on': None}
            elif to == 'flange':
                how, off = self.flange_takeoff(line, nps, item)
                into = Port(how, off)
            elif to == 'joint':
                how, off = self.flange_takeoff(line, nps, item)
                g = self.gasket(line, nps)
                into = Port(how, g / 2 + off)
            elif to == 'valve':
                into, valve = self.valve(leg, line, nps, item)
            elif to == 'cap':
                how, off = self.cap(line, nps, item)
                into = Port(how, off)
            elif to == 'weld':
                into = Port('weld', 0.0)
            elif to == 'open':
                into = Port('open', 0.0)
            elif to == 'point':
                into = None
            elif to == 'tie-in':
                free = self.names.get(leg['with'])
                if free is None:
                    raise Unbuildable('the tie-in stands in a later run')
                if angle(way, neg(free['way'])) > 0.05:
                    raise Unbuildable('the tie-in comes in another way')
                if free.get('used'):
                    raise Unbuildable('a free end takes one run')
                free['used'] = True
                into = Port(free['port'].how, free['port'].takeoff, free['port'].comp)
                into.header = free
            else:
                raise Unbuildable(to)

            if makeup:
                if pending or into is None or port.how != 'butt' or into.how != 'butt':
                    raise Unbuildable('nothing can be made up here')
                dist = port.takeoff + into.takeoff + self.makeup_gap
            q = add(pos, way, dist)
            self.step = (0.0, 0.0, 0.0)
            if to == 'reducer' and leg.get('kind') == 'eccentric':      # flat side to flat side: the centreline steps
                flat = AXES[{'top': 'up', 'bottom': 'down'}.get(leg['flat'], leg['flat'])]
                self.step = add((0.0, 0.0, 0.0), flat, (self.od(nps) - self.od(new_nps)) / 2)
                q = add(q, self.step)
            if to == 'tie-in' and norm(add(q, free['at'], -1)) > 0.05:
                raise Unbuildable('the loop does not close')
            self.points[name].append(q)

            if into is None:            # the pipe goes on
                if pending is None:
                    pending = {'run': name, 'leg': k, 'legs': [], 'dist': 0.0, 'from': port, 'p': pos, 'begin': leg.get('begin'), 'hang': [], 'line': line, 'nps': nps}
                pending['legs'].append(k)
                pending['dist'] += dist
                c = make(q) if make else None
                if c is not None:
                    pending['hang'].append((order(k, 1), c, self.comps[c[1]]['size'], q))
                if to == 'stub-in' and 'name' in leg:
                    self.names[leg['name']]['on'] = pending
                pos = q
                continue

            if pending is None:
                pending = {'run': name, 'leg': k, 'legs': [], 'dist': 0.0, 'from': port, 'p': pos, 'begin': leg.get('begin'), 'hang': [], 'line': line, 'nps': nps}
            pending['legs'].append(k)
            pending['dist'] += dist
            if to == 'flange':
                back = self.end_flange(order(k, 3), name, k, nps, line, q, neg(way), leg, item)
                into.comp = back.comp
                after = None
            elif to == 'cap':
                into.comp = self.end_cap(name, k, nps, line, q, neg(way), item).comp
            elif to == 'joint':
                g = self.gasket(line, nps)
                f1 = self.flange(name, k, nps, line, add(q, way, -g / 2), neg(way), item)
                gk = self.comp('gasket', name, k, nps, [(add(q, way, -g / 2), neg(way)), (add(q, way, g / 2), way)], ware=(self.gasket_word(line), nps, line['class']))
                f2 = self.flange(name, k, nps, line, add(q, way, g / 2), way, item)
                into.comp = f1
                self.bolting.append((line, nps))
                after = Port(into.how, into.takeoff, f2)
            elif to == 'valve':
                after = self.place_valve(leg, line, nps, q, way, name, k, into, valve, item)
            elif make:
                after = make(q)
            pipe = self.lay(pending, into, leg, add(q, self.step, -1), order)
            if to == 'joint':
                self.joint(order(k, 3), 'bolted', 'field', nps, [f1, f2], q)
            if to == 'valve' and valve['ends'] == 'flanged':
                for n, (a, b, at) in enumerate(valve['bolted']):
                    self.joint(order(k, 3 + n), 'bolted', 'field', nps, [a, b], at)
            if to == 'weld':
                after = Port('weld', 0.0, pipe, q)
                after.place = leg.get('end')
                after.k = k
                if k == len(legs) - 1:
                    self.joint(order(k, 2), 'butt', leg.get('end', 'shop'), nps, [pipe, ('X', 'existing')], q)
            pending = None
            port, pos, nps = after, q, new_nps

    def outlet_schedule(self, line, br):
        wall = self.wall(line, br)
        for sch in ('STD', 'XS'):
            if wall <= self.t('pipe', 'wall', br, schedule=sch) + 0.01:
                return sch
        return '160'

    def branch(self, leg, way):
        b = leg['branch']
        if isinstance(b, dict):
            v = (0.0, 0.0, 0.0)
            for word, value in b.items():
                v = add(v, AXES[word], length(value, self.units))
        else:
            v = AXES[b]
        b = unit(v)
        if abs(angle(b, way) - 90) > 0.05:
            raise Unbuildable('a branch stands square on its run')
        return b

    def cap(self, line, nps, item):
        if item in self.measured:
            return line['ends'], self.real(line['ends'], self.measured[item], nps)
        cls = line['fitting class']
        if line['ends'] == 'socket':
            return 'socket', self.t('SW cap', 'end wall', nps, cls=cls) + self.socket_gap
        if line['ends'] == 'threaded':
            return 'threaded', self.t('TH cap', 'end to end', nps, cls=cls) - self.engagement(nps)
        limit = self.t('cap', 'limiting wall', nps, need=False)
        thick = limit is not None and self.wall(line, nps) > limit + 0.13
        return 'butt', self.t('cap', 'E1' if thick else 'E', nps)

    def end_cap(self, run, k, nps, line, pos, inward, item):
        how, off = self.cap(line, nps, item)
        e = off + self.beyond(how, 'SW cap', nps, line['fitting class'])
        suffix = {'butt': '', 'socket': ' SW', 'threaded': ' THD'}[how]
        c = self.comp('cap', run, k, nps, [(add(pos, inward, e), inward)], item=item, ware=('cap' + suffix, nps, line['fitting class'] if suffix else ''))
        return Port(how, off, c)

    def flange(self, run, k, nps, line, face, inward, item):
        """`face`: the contact face; `inward`: from the face towards the pipe."""
        how, off = self.flange_takeoff(line, nps, item)
        if how == 'fillet':
            off = self.t('flange SO', 'length through hub', nps, cls=line['class'])
        elif how != 'butt':
            off += self.beyond(how, 'flange SW', nps, line['class'])
        return self.comp('flange', run, k, nps, [(face, neg(inward)), (add(face, inward, off), inward)], how=how, type=line['flange'], item=item,
                         ware=('flange LJ' if line['flange'] == 'LJ' else f"flange {line['flange']} {line['facing']}", nps, line['class']))

    def end_flange(self, order, run, k, nps, line, pos, inward, row, item):
        how, off = self.flange_takeoff(line, nps, item)
        c = self.flange(run, k, nps, line, pos, inward, item)
        if row.get('bolting') != 'by others':
            g = self.gasket(line, nps)
            self.bolting.append((line, nps))
            self.comp('gasket', run, k, nps, [(pos, inward), (add(pos, inward, -g), neg(inward))], ware=(self.gasket_word(line), nps, line['class']))
        self.joint(order, 'bolted', 'field', nps, [c], add(pos, inward, -self.gasket(line, nps) / 2))
        return Port(how, off, c)

    def valve(self, leg, line, nps, item):
        ends, kind = leg.get('ends', 'flanged'), leg['kind']
        if 'face to face' in leg:
            f2f = length(leg['face to face'], self.units)
        elif ends == 'flanged':
            f2f = self.t('valve ' + kind, 'face to face', nps, cls=line['class'])
        elif ends == 'butt':
            f2f = self.t('valve ' + kind, 'end to end', nps, cls=line['class'])
        else:
            raise Unbuildable('no table of small valves')
        if item in self.measured and ends != 'flanged':
            return Port(ends, self.measured[item]), {'ends': ends, 'half': self.measured[item]}
        v = {'ends': ends, 'half': f2f / 2}
        if ends == 'flanged':
            v['gasket'] = self.gasket(line, nps)
            how, off = self.flange_takeoff(line, nps)
            return Port(how, f2f / 2 + v['gasket'] + off), v
        if ends == 'butt':
            return Port('butt', f2f / 2), v
        if ends == 'threaded':
            return Port('threaded', f2f / 2 - self.engagement(nps)), v
        return Port('socket', f2f / 2 - self.t('SW coupling', 'socket depth', nps, cls=line['fitting class']) + self.socket_gap), v

    def place_valve(self, leg, line, nps, q, way, run, k, into, v, item):
        h = v['half']
        ports = [(add(q, way, -h), neg(way)), (add(q, way, h), way)]
        if v['ends'] != 'flanged':
            c = self.comp('valve', run, k, nps, ports, item=item, ware=('valve ' + leg['kind'] + {'butt': ' BW', 'socket': ' SW', 'threaded': ' THD'}[v['ends']], nps, line['class']))
            into.comp = c
            return Port(into.how, into.takeoff, c)
        g = v['gasket']
        f1 = self.flange(run, k, nps, line, add(q, way, -h - g), neg(way), None)
        self.comp('gasket', run, k, nps, [(add(q, way, -h - g), neg(way)), (add(q, way, -h), way)], ware=(self.gasket_word(line), nps, line['class']))
        c = self.comp('valve', run, k, nps, ports, loose=True, item=item, ware=('valve ' + leg['kind'], nps, line['class']))
        self.comp('gasket', run, k, nps, [(add(q, way, h), neg(way)), (add(q, way, h + g), way)], ware=(self.gasket_word(line), nps, line['class']))
        f2 = self.flange(run, k, nps, line, add(q, way, h + g), way, None)
        into.comp = f1
        self.bolting += [(line, nps)] * (1 if leg['kind'] == 'butterfly' else 2)   # a wafer body has one set of long studs
        v['bolted'] = [(f1, c, add(q, way, -h - g / 2)), (c, f2, add(q, way, h + g / 2))]
        return Port(into.how, into.takeoff, f2)

    # -- the pipe between two ports, or the one weld where there is none
    def lay(self, p, b, leg, q, order):
        a, nps, line = p['from'], p['nps'], p['line']
        k0, k1 = p['legs'][0], p['legs'][-1]
        way = self.way(leg)
        bare = p['dist'] - a.takeoff - b.takeoff
        gaps = sum(self.gap if e.how == 'butt' else self.gap / 2 if e.how == 'weld' else 0.0 for e in (a, b))
        if len(p['legs']) == 1 and a.how == 'butt' and b.how == 'butt' and abs(bare - self.makeup_gap) <= 0.5:
            if 'final-fit' in (leg.get('end'), p['begin']):
                raise Unbuildable('nothing to leave long')
            self.joint(order(k1, 2), 'butt', leg.get('end') or p['begin'] or 'shop', nps, [a.comp, b.comp], add(q, way, -b.takeoff - bare / 2))
            return None
        draws = sum({'butt': 1.0, 'weld': 0.5}.get(e.how, 0.0) for e in (a, b))    # a weld's shrinkage: whole at a fitting, half at another pipe
        extra = 0.0
        if p['begin'] == 'final-fit' and a.how != 'open':
            extra += self.extra
        if leg.get('end') == 'final-fit' and b.how != 'open':
            extra += self.extra
        cut = bare - gaps + self.shrinkage * draws + extra
        self.wall(line, nps)      # pipe that is in no table can't be had
        pipe = ('P', len(self.pipes))
        self.pipes.append({'run': p['run'], 'leg': k0, 'legs': p['legs'], 'size': nps, 'length': cut, 'extra': extra,
                           'fitted': bare - gaps, 'schedule': line['schedule'], 'item': int(leg['pipe item']) if 'pipe item' in leg else None, 'from': a.how, 'to': b.how})
        if bare - gaps < -1e-9:
            raise Unbuildable('a pipe shorter than nothing')
        start = add(p['p'], self.way({'go': leg['go'], **{x: leg[x] for x in ('fall', 'rise') if x in leg}}), 0)
        if a.how == 'weld':
            if a.comp == ('X', 'existing'):
                self.joint(order(k0, 0), 'butt', p['begin'] or 'shop', nps, [a.comp, pipe], p['p'])
            else:
                self.joint(order(a.k, 2), 'butt', a.place or p['begin'] or 'shop', nps, [a.comp, pipe], p['p'])
        elif a.how == 'branch':
            h = a.header
            other = ('header', h)
            self.joint(order(k0, 0), 'branch', p['begin'] or 'shop', nps, [other, pipe], None)
        elif a.how != 'open':
            at = add(p['p'], way, a.takeoff + self.gap / 2) if a.how == 'butt' else None
            self.joint(order(k0, 0), a.how, p['begin'] or 'shop', nps, [a.comp, pipe], at)
        for o, c, s, at in p['hang']:
            if self.comps[c[1]]['kind'] == 'outlet':
                self.joint(o, 'branch', 'shop', s, [pipe, c], None)
        p['pipe'] = pipe
        if b.how == 'branch':
            self.joint(order(k1, 2), 'branch', leg.get('end', 'shop'), nps, [pipe, ('header', b.header)], None)
        elif b.how not in ('open', 'weld'):
            at = add(q, way, -b.takeoff - self.gap / 2) if b.how == 'butt' else None
            self.joint(order(k1, 2), b.how, leg.get('end', 'shop'), nps, [pipe, b.comp], at)
        return pipe

    # -- spools (format 1.5)
    def spools(self):
        for j in self.joints:
            j['between'] = [b[1]['on']['pipe'] if b[0] == 'header' else b for b in j['between']]
        parent = {}
        def find(x):
            parent.setdefault(x, x)
            while parent[x] != x:
                x = parent[x]
            return x
        for n, c in enumerate(self.comps):
            if c['kind'] not in ('gasket', 'pad') and not c.get('loose'):
                find(('C', n))
        for n in range(len(self.pipes)):
            find(('P', n))
        for j in self.joints:
            ends = [b for b in j['between'] if b[0] != 'X']
            if j['kind'] != 'bolted' and j['place'] == 'shop' and len(ends) == 2:
                parent[find(ends[0])] = find(ends[1])
        groups = {}
        for x in list(parent):
            groups.setdefault(find(x), []).append(x)
        self.groups = [sorted(g) for g in groups.values()]

    # -- what is kept of it
    def result(self):
        r3 = lambda v: [round(x, 4) + 0.0 for x in v]
        return {
            'points': {name: [r3(p) for p in ps] for name, ps in self.points.items()},
            'components': [{'kind': c['kind'], 'run': c['run'], 'leg': c['leg'], 'size': c['size'], 'how': c.get('how'), 'type': c.get('type'),
                            'ports': [[r3(p), r3(f)] for p, f in c['ports']]} for c in self.comps],
            'cuts': [{'run': p['run'], 'leg': p['leg'], 'size': p['size'], 'length': round(p['length'], 4), 'extra': round(p['extra'], 4)} for p in self.pipes],
            'joints': [{'kind': j['kind'], 'place': j['place'], 'size': j['size'], 'between': [f'{a}{b}' for a, b in j['between'] if a != 'X'],
                        'at': r3(j['at']) if j['at'] else None} for j in self.joints],
            'spools': [[f'{a}{b}' for a, b in g] for g in self.groups],
            'pads': len(self.pads), 'studs': self.stud_count,
        }


if __name__ == '__main__':
    for path in sys.argv[1:]:
        with open(path, encoding='utf-8') as f:
            print(json.dumps(Answer(f.read(), os.path.dirname(path) or '.').result(), indent=1))
