"""Do the reader and the published schema say the same about the same rig descriptions?

Cases stand in cases.txt. Each must be judged alike by both, but for those marked "reader": faults that a JSON Schema cannot
express, each with its reason, which the schema has to accept and the reader to refuse. The schema itself is checked against
the metaschema of its draft (JSON Schema 2020-12).
"""

import json
import subprocess
import sys

import jsonschema


def read_cases(path):
    """Yields (line, verdict, reason, text). A case is a head line "== VERDICT FORM | reason" and the lines below it.

    FORM says what the lines are: `text` a whole rig description, `bones` the inside of its list of bones, `keys` keys of the
    rig after an empty list of bones, `driver` the weight of a constraint. Single quotes stand for double quotes.
    """
    frames = {
        "text": "%s",
        "bones": "{'format': 'rig-description', 'version': 1, 'name': 'x', 'objects': [{'name': 'o'}], 'bones': [%s]}",
        "keys": "{'format': 'rig-description', 'version': 1, 'name': 'x', 'bones': [{'name': 'a'}, {'name': 'b'}], %s}",
        "driver": "{'format': 'rig-description', 'version': 1, 'name': 'x', 'properties': [{'name': 'p'}], 'bones':"
        " [{'name': 'a', 'constraints': [{'kind': 'aim', 'from': 'a', 'weight': %s}]}, {'name': 'b'}]}",
    }
    case = None
    with open(path, encoding="utf-8", newline="") as lines:
        for number, line in enumerate(lines, 1):
            if line.startswith("=="):
                if case:
                    yield case
                head, _, reason = line[2:].partition("|")
                verdict, form = head.split()
                case = [number, verdict, reason.strip(), "", frames[form]]
            elif case:
                case[3] += line
    yield case


def text_of(case):
    return case[4].replace("%s", case[3].strip()).replace("'", '"')


def main(program, schema_path, cases_path):
    with open(schema_path, encoding="utf-8") as file:
        schema = json.load(file)
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)

    cases = list(read_cases(cases_path))
    texts = [text_of(case) for case in cases]
    run = subprocess.run([program], input="\0".join(texts).encode(), capture_output=True, check=True)
    verdicts = run.stdout.decode(errors="replace").splitlines()
    wrong = []
    if len(verdicts) != len(cases):
        wrong.append(f"{len(verdicts)} verdicts of the reader on {len(cases)} cases")
    counts = {"good": 0, "bad": 0, "reader": 0}
    for case, text, of_reader in zip(cases, texts, verdicts):
        line, wanted, reason = case[:3]
        counts[wanted] += 1
        try:
            error = jsonschema.exceptions.best_match(validator.iter_errors(json.loads(text)))
            of_schema = "bad " + error.message if error else "good"
        except json.JSONDecodeError as error:
            of_schema = f"bad {error}"
        wanted_of_schema = "good" if wanted == "reader" else wanted
        wanted_of_reader = "bad" if wanted == "reader" else wanted
        if of_schema.split()[0] != wanted_of_schema or of_reader.split()[0] != wanted_of_reader:
            wrong.append(f"{cases_path}:{line}: wanted {wanted}\n  reader: {of_reader}\n  schema: {of_schema}\n  {text}")
        if wanted == "reader" and not reason:
            wrong.append(f"{cases_path}:{line}: no reason why the schema cannot say so")
    print("\n".join(wrong))
    print(f"{counts['good']} good, {counts['bad']} bad, {counts['reader']} that only the reader can refuse; {len(wrong)} wrong")
    return 1 if wrong or min(counts.values()) == 0 else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
