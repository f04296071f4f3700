"""What does a driver's expression come to? A naive evaluator of the small expression language.

Numbers, names, + - * /, unary + -, parentheses, one comparison a level (1 or 0), min, max, abs and clamp.
An unknown value is NaN; whatever uses one, and whatever is not finite, is unknown.
"""
import math
import re

UNKNOWN = math.nan
TOKEN = re.compile(r"\s*(?:(\d+\.?\d*(?:[eE][+-]?\d+)?|\.\d+(?:[eE][+-]?\d+)?)|([A-Za-z_][A-Za-z0-9_]*)|(<=|>=|==|!=|[-+*/(),<>]))")
COMPARE = {"<": lambda a, b: a < b, "<=": lambda a, b: a <= b, ">": lambda a, b: a > b,
           ">=": lambda a, b: a >= b, "==": lambda a, b: a == b, "!=": lambda a, b: a != b}
ARITHMETIC = {"+": lambda a, b: a + b, "-": lambda a, b: a - b, "*": lambda a, b: a * b,
              "/": lambda a, b: a / b if b != 0 else UNKNOWN}
FUNCTIONS = {"min": min, "max": max, "abs": abs, "clamp": lambda x, low, high: max(low, min(high, x))}


def tokens_of(text):
    text, tokens, at = text.rstrip(), [], 0
    while at < len(text):
        match = TOKEN.match(text, at)
        if not match:
            raise ValueError(f"cannot read {text[at:]!r}")
        number, name, sign = match.groups()
        tokens.append(("number", float(number)) if number else ("name", name) if name else ("sign", sign))
        at = match.end()
    return tokens + [("end", None)]


def names_in(text):
    """The input names that the expression uses."""
    tokens = tokens_of(text)
    return {value for (kind, value), after in zip(tokens, tokens[1:]) if kind == "name" and after != ("sign", "(")}


def apply(function, *arguments):
    """A function of known values; unknown when an argument is unknown or the result is not finite."""
    if any(math.isnan(a) for a in arguments):
        return UNKNOWN
    result = float(function(*arguments))
    return result if math.isfinite(result) else UNKNOWN


class Parser:
    """Recursive descent: comparison, sum, product, sign, atom. Evaluates while it reads."""

    def __init__(self, text, values):
        self.tokens, self.at, self.values = tokens_of(text), 0, values

    def take(self, *signs):
        kind, value = self.tokens[self.at]
        if kind == "sign" and value in signs:
            self.at += 1
            return value
        return None

    def must_take(self, sign):
        if not self.take(sign):
            raise ValueError(f"{sign} expected")

    def comparison(self):
        left = self.sum()
        sign = self.take(*COMPARE)
        return apply(COMPARE[sign], left, self.sum()) if sign else left

    def sum(self):
        value = self.product()
        while sign := self.take("+", "-"):
            value = apply(ARITHMETIC[sign], value, self.product())
        return value

    def product(self):
        value = self.signed()
        while sign := self.take("*", "/"):
            value = apply(ARITHMETIC[sign], value, self.signed())
        return value

    def signed(self):
        if self.take("-"):
            return -self.signed()
        return self.signed() if self.take("+") else self.atom()

    def atom(self):
        if self.take("("):
            value = self.comparison()
            self.must_take(")")
            return value
        kind, value = self.tokens[self.at]
        self.at += 1
        if kind == "number":
            return value
        if kind != "name":
            raise ValueError(f"a value expected, not {value}")
        if not self.take("("):
            return self.values[value]
        arguments = [self.comparison()]
        while self.take(","):
            arguments.append(self.comparison())
        self.must_take(")")
        return apply(FUNCTIONS[value], *arguments)


def evaluate_expression(text, values):
    """The value of `text` with its inputs at `values`, NaN when unknown."""
    parser = Parser(text, values)
    value = parser.comparison()
    if parser.tokens[parser.at][0] != "end":
        raise ValueError("something is left over")
    return value


def evaluate_curve(points, x):
    """Piecewise linear, flat outside its first and last point."""
    if math.isnan(x):
        return UNKNOWN
    if x <= points[0][0]:
        return float(points[0][1])
    for (x0, y0), (x1, y1) in zip(points, points[1:]):
        if x <= x1:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return float(points[-1][1])
