"""Writes a drawing's material list, item by item, from its answer, and says how much of each item is needed."""
from answer import Answer, TABLES

BOLT = {12.7: '1/2', 14.2875: '9/16', 15.875: '5/8', 19.05: '3/4', 22.225: '7/8', 25.4: '1', 28.575: '1-1/8', 31.75: '1-1/4', 34.925: '1-3/8', 38.1: '1-1/2', 41.275: '1-5/8', 44.45: '1-3/4', 47.625: '1-7/8', 50.8: '2'}


def add_key(text, run, leg, key):
    """Adds `key` to a leg's row."""
    lines, now, k = text.split('\n'), None, -1
    for i, line in enumerate(lines):
        if line.startswith('  - run: '):
            now, k = line[9:], -1
        elif line.startswith('      - {'):
            k += 1
            if now == run and k == leg:
                lines[i] = line[:-1] + ', ' + key + '}'
    return '\n'.join(lines)


def rows(answer):
    """{(what, size, class, schedule): (amount, [components])}; amounts of pipe in metres."""
    amounts, users = {}, {}
    def count(key, n, user=None):
        amounts[key] = amounts.get(key, 0) + n
        if user: users.setdefault(key, []).append(user)
    for n, c in enumerate(answer.comps):
        what, size, cls = c['ware']
        count((what, size, cls, ''), 1, c)
        if what == 'flange LJ':
            count(('stub end', size, '', ''), 1)
    for p in answer.pipes:
        sch = p['schedule']
        count(('pipe', p['size'], '', '' if isinstance(sch, dict) else sch), p['length'] / 1000)
    for line, nps in answer.bolting:
        d, n = answer.studs(line, nps)
        count(('stud bolt', BOLT[round(d, 4)], '', ''), n)
    for run, leg, br in answer.pads:
        count(('reinforcing pad', br, '', ''), 1)
    return amounts, users


def materials(text, files, answer, rnd, n):
    answer.needed, answer.spool_names = None, {}
    if rnd.random() < 0.5:
        for g, group in enumerate(answer.groups):          # names for some spools
            legs = [answer.comps[i] for kind, i in group if kind == 'C' and answer.comps[i]['leg'] is not None and answer.comps[i]['kind'] not in ('flange', 'outlet')]
            if legs and rnd.random() < 0.5:
                name = f'S-{g + 101}'
                for c in rnd.sample(legs, rnd.randint(1, min(2, len(legs)))):
                    if f"{c['run']}/{c['leg']}" not in answer.spool_names:
                        text = add_key(text, c['run'], c['leg'], f'spool: {name}')
                        answer.spool_names[f"{c['run']}/{c['leg']}"] = name
    if rnd.random() < 0.3:
        return text, files
    amounts, users = rows(answer)
    keys = list(amounts)
    rnd.shuffle(keys)
    numbers = rnd.sample(range(1, 400), len(keys))
    needed, table = {}, []
    explicit = rnd.random() < 0.3
    for key, number in zip(keys, numbers):
        what, size, cls, sch = key
        needed[str(number)] = round(amounts[key], 6)
        if what == 'reinforcing pad':
            explicit_here = False
        row = {'item': number, 'what': what, 'size': size, 'schedule': sch, 'class': cls}
        if what.startswith('outlet') and rnd.random() < 0.5:
            row['size'] = size.split(' x ')[0]
        if what == 'pipe':
            q = amounts[key] + rnd.uniform(-1, 3)
            row['quantity'] = rnd.choice([f'{max(q, 0.1):.2f} m', f'{max(q, 0.1) * 1000:.0f} mm', f"{int(max(q, 0.4) / 0.3048)}'-6\""])
        else:
            row['quantity'] = max(1, amounts[key] + rnd.choice([-1, 0, 0, 0, 2]))
        table.append(row)
        if explicit:
            for c in users.get(key, []):
                if c['leg'] is not None and c['kind'] in ('elbow', 'tee', 'reducer', 'cap', 'valve', 'outlet'):
                    text = add_key(text, c['run'], c['leg'], f'item: {number}')
    # outlets by branch size alone: two rows may then be alike
    seen = set()
    for row in table:
        k = (row['what'], row['size'], row['class'], row['schedule'])
        if k in seen: return text, files
        seen.add(k)
        if row['what'].startswith('outlet') and sum(r['what'] == row['what'] and r['size'].split(' x ')[0] == row['size'].split(' x ')[0] for r in table) > 1 and not explicit:
            return text, files
    columns = ['item', 'what', 'size', 'schedule', 'class', 'quantity']
    if rnd.random() < 0.3:
        body = ','.join(columns) + '\n' + ''.join(','.join('"' + str(r[c]).replace('"', '""') + '"' if any(x in str(r[c]) for x in '",') else str(r[c]) for c in columns) + '\n' for r in table)
        files = {**files, f'list-{n}.csv': body}
        block = f'materials: list-{n}.csv\n'
    else:
        def cell(v):
            return "'" + str(v).replace("'", "''") + "'" if "'" in str(v) or '"' in str(v) else str(v)
        block = 'materials:\n' + ''.join('  - {' + ', '.join(f'{c}: {cell(r[c])}' for c in columns if r[c] != '') + '}\n' for r in table)
        if rnd.random() < 0.2:
            files = {**files, f'list-{n}.yaml': block}
            block = f'materials: list-{n}.yaml\n'
    answer.needed = needed
    return text.replace('runs:\n', block + 'runs:\n', 1), files
