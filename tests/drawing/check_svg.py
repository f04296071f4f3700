"""Is this SVG well formed (expat), on its own (no script, nothing from outside) and does every text fit? Prints what is wrong."""

import re
import sys
import xml.parsers.expat

HARMLESS = {"svg", "style", "defs", "pattern", "rect", "path", "circle", "g", "title", "desc", "text"}


def faults(data):
    found = []

    def start(name, attributes):
        if name not in HARMLESS:
            found.append(f"element {name}")
        for key, value in attributes.items():
            if key.startswith("on") or "href" in key:
                found.append(f"attribute {key} of {name}")
            if re.search(r"url\((?!#)", value) or "javascript:" in value:
                found.append(f"{key} of {name} reaches outside: {value}")
        if name == "text" and "textLength" not in attributes:
            found.append("text without a length")

    parser = xml.parsers.expat.ParserCreate()
    parser.StartElementHandler = start
    try:
        parser.Parse(data, True)
    except xml.parsers.expat.ExpatError as error:
        found.append(f"not well formed: {error}")
    style = re.search(rb"<style>(.*?)</style>", data, re.S)
    if style and re.search(rb"url\((?!#)|@import", style.group(1)):
        found.append("the style sheet reaches outside")
    return found


with open(sys.argv[1], "rb") as file:
    for fault in faults(file.read()):
        print(fault)
