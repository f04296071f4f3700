"""Do the reports on standard input keep the schema of reports? The judge is Debian's jsonschema."""
import json
import pathlib
import sys

import jsonschema

schema = json.loads((pathlib.Path(__file__).parent / "report.schema.json").read_text(encoding="utf-8"))
jsonschema.Draft202012Validator.check_schema(schema)
reports = json.load(sys.stdin)
for report in reports if isinstance(reports, list) else [reports]:
    faults = list(jsonschema.Draft202012Validator(schema).iter_errors(report))
    for fault in faults:
        print("/".join(map(str, fault.absolute_path)) + ": " + fault.message)
    print(report["rig"], "breaks the schema" if faults else "keeps the schema")
