"""Writes the fixed corpus of the test Independent: drawings as texts, and beside each what this folder's programs answer.

    python3 corpus.py ../../tests/Rootgap.Tests/Independent [COUNT] [SEED]
"""
import json, os, sys
from draw import make, restyle
from stock import materials

MOST = 1900     # characters of a drawing: the corpus is read by people too


def main():
    folder = sys.argv[1]
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 150
    seed = int(sys.argv[3]) if len(sys.argv) > 3 else 11
    drawings, answers, refused = {}, {}, {}
    while len(answers) < count:
        seed += 1
        n = len(answers)
        made = make(seed, n)
        if made is None or len(made[1] if len(made) == 3 else made[0]) > MOST:
            continue
        if len(made) == 3:
            if len(refused) < 15 and not made[2]:
                name = f'refused-{len(refused):02}'
                refused[name] = made[0]
                drawings[name] = {'text': made[1], 'beside': {}}
            continue
        text, files, answer, rnd = made
        text, files = materials(text, files, answer, rnd, n)
        name = f'drawing-{n:03}'
        drawings[name] = {'text': restyle(text, rnd), 'beside': files}
        answers[name] = {**answer.result(), 'needed': answer.needed, 'names': answer.spool_names}
    for name, what in (('drawings.json', drawings), ('answers.json', {'answers': answers, 'refused': refused})):
        rows = ',\n'.join(f' {json.dumps(k)}: {json.dumps(v, separators=(",", ":"), ensure_ascii=False)}' for k, v in what.items()) if name == 'drawings.json' else None
        with open(os.path.join(folder, name), 'w', encoding='utf-8') as f:
            if rows:
                f.write('{\n' + rows + '\n}\n')
            else:
                f.write('{\n"refused": ' + json.dumps(refused, separators=(',', ':')) + ',\n"answers": {\n'
                        + ',\n'.join(f' {json.dumps(k)}: {json.dumps(v, separators=(",", ":"))}' for k, v in answers.items()) + '\n}}\n')
    print(f'{len(answers)} drawings, {len(refused)} refused, last seed {seed}')


if __name__ == '__main__':
    main()
