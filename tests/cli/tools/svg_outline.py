"""What is in this SVG, however it is laid out? Root element, titles, and texts, sorted; and whether it is well-formed and self-contained."""
import re
import sys
import xml.etree.ElementTree as tree

text = open(sys.argv[1], encoding="utf-8").read()
root = tree.fromstring(text)
print("root", re.sub(r"\{.*\}", "", root.tag), "with size" if root.get("viewBox") and root.get("width") else "without size")
names = {re.sub(r"\{.*\}", "", element.tag) for element in root.iter()}
print("script" if "script" in names else "no script")
wanted = sys.argv[2:]
titles = " | ".join(" ".join("".join(element.itertext()).split()) for element in root.iter() if element.tag.endswith("title"))
for word in wanted:
    print(word, "has a hover title" if word in titles else "has no hover title")
