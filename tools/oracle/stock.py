"""Writes a drawing's material list, item by item, from its answer, and says how much of each item is needed."""
from answer import Answer, TABLES

def bolt(mm):
    """A diameter's name: 19.05 is 3/4."""
    whole, part = divmod(round(mm / 25.4 * 8), 8)
    down = {0: '', 1: '1/8', 2: '1/4', 3: '3/8', 4: '1/2', 5: '5/8', 6: '3/4', 7: '7/8'}[part]
    return f'{whole}-{down}' if whole and down else down or str(whole)



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
        if user and user['item'] is not None:
            key = key + (user['item'],)
        amounts[key] = amounts.get(key, 0) + n
        if user: users.setdefault(key, []).append(user)
    for n, c in enumerate(answer.comps):
        what, size, cls = c['ware']
        count((what, size, cls, ''), 1, c if c['kind'] != 'gasket' else None)
        if what == 'flange LJ':
            count(('stub end', size, '', ''), 1)
    for p in answer.pipes:
        sch = p['schedule']
        count(('pipe', p['size'], '', '' if isinstance(sch, dict) else sch), p['length'] / 1000)
    for line, nps in answer.bolting:
        d, n = answer.studs(line, nps)
        count(('stud bolt', bolt(d), '', ''), n)
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
    if rnd.random() < 0.3 and not answer.measured:
        return text, files
    amounts, users = rows(answer)
    keys = list(amounts)
    rnd.shuffle(keys)
    numbers = rnd.sample(range(1, 400), len(keys))
    needed, table = {}, []
    explicit = rnd.random() < 0.3
    for key, number in zip(keys, numbers):
        what, size, cls, sch = key[:4]
        number = key[4] if len(key) > 4 else number
        if len(key) > 4:
            what = 'piece as measured'       # only the legs that name it are it
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
            for c in users.get(key, []) if len(key) == 4 else []:
                if c['leg'] is not None and c['kind'] in ('elbow', 'tee', 'reducer', 'cap', 'valve', 'outlet'):
                    text = add_key(text, c['run'], c['leg'], f'item: {number}')
    # outlets by branch size alone: two rows may then be alike
    seen = set()
    for row in table:
        k = (row['what'], row['size'], row['class'], row['schedule'])
        if k in seen and not answer.measured: return text, files
        seen.add(k)
        if row['what'].startswith('outlet') and sum(r['what'] == row['what'] and r['size'].split(' x ')[0] == row['size'].split(' x ')[0] for r in table) > 1 and not explicit and not answer.measured:
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
