// What does a driver's expression say? Its words, its faults, and its structure.
#include "expression.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <unordered_map>

#include "number.hpp"

namespace ligament {

namespace {

enum class Word : std::uint8_t { number, name, sign, factor, comparison, open, close, comma, unknown, end };

struct Token {
    Word word = Word::end;
    std::size_t offset = 0;
    std::string_view text;
};

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; }
// Letters beyond ASCII are read as part of a name, to be refused as a whole.
bool is_beyond_ascii(char c) { return (static_cast<unsigned char>(c) & 0x80U) != 0; }

std::size_t count_digits(std::string_view text, std::size_t at) {
    std::size_t end = at;
    while (end < text.size() && is_digit(text[end])) ++end;
    return end - at;
}

// The length of the number at `at`: digits with an optional fraction and exponent. An "e" without digits is not part of it.
std::size_t number_length(std::string_view text, std::size_t at) {
    std::size_t end = at + count_digits(text, at);
    if (end < text.size() && text[end] == '.') end += 1 + count_digits(text, end + 1);
    if (end < text.size() && (text[end] == 'e' || text[end] == 'E')) {
        std::size_t power = end + 1;
        if (power < text.size() && (text[power] == '+' || text[power] == '-')) ++power;
        if (const std::size_t digits = count_digits(text, power)) end = power + digits;
    }
    return end - at;
}

Word word_of(char c) {
    switch (c) {
        case '+':
        case '-':
            return Word::sign;
        case '*':
        case '/':
            return Word::factor;
        case '<':
        case '>':
            return Word::comparison;
        case '(':
            return Word::open;
        case ')':
            return Word::close;
        case ',':
            return Word::comma;
        default:
            return Word::unknown;
    }
}

Token next_token(std::string_view text, std::size_t at) {
    while (at < text.size() && (text[at] == ' ' || text[at] == '\t' || text[at] == '\n' || text[at] == '\r')) ++at;
    if (at == text.size()) return {Word::end, at, {}};
    const char c = text[at];
    const bool before_equals = at + 1 < text.size() && text[at + 1] == '=';
    if (is_digit(c) || (c == '.' && count_digits(text, at + 1) > 0))
        return {Word::number, at, text.substr(at, number_length(text, at))};
    if (is_letter(c) || is_beyond_ascii(c)) {
        std::size_t end = at + 1;
        while (end < text.size() && (is_letter(text[end]) || is_digit(text[end]) || is_beyond_ascii(text[end]))) ++end;
        return {Word::name, at, text.substr(at, end - at)};
    }
    if (before_equals && (c == '<' || c == '>' || c == '=' || c == '!')) return {Word::comparison, at, text.substr(at, 2)};
    const Word word = word_of(c);
    return {word, at, text.substr(at, 1)};
}

struct Function {
    std::string_view name;
    std::size_t least, most;
    std::string_view wanted;
};
constexpr std::array<Function, 4> functions{{{"min", 2, static_cast<std::size_t>(-1), "two or more values"},
                                             {"max", 2, static_cast<std::size_t>(-1), "two or more values"},
                                             {"abs", 1, 1, "one value"},
                                             {"clamp", 3, 3, "three values"}}};

constexpr std::array<std::string_view, 4> function_names{"min", "max", "abs", "clamp"};

// One open parenthesis, or the whole text.
struct Level {
    std::size_t offset = 0;
    const Function* function = nullptr;
    std::size_t values = 1;
    bool is_call = false;       // of a function, a known one or not
    bool compared = false;      // a comparison stands on this level (in this value of a function) already
    bool closes_twice = false;  // a negated call: n(min(...))
};

std::string quoted(std::string_view text) { return "\"" + std::string(text) + "\""; }

std::string quoted(const Token& token) { return token.word == Word::end ? "the end" : quoted(token.text); }

struct Parser {
    std::string_view text;
    std::span<const std::string_view> inputs;
    NearestNameBudget& hints;
    std::unordered_map<std::string_view, std::uint32_t> index_of_input{};  // where there are too many to try one by one
    ParsedExpression result{};
    std::vector<Level> levels{Level{}};
    Token token{};
    bool wants_value = true;
    bool negative = false;  // an odd number of minus signs stands before the value to come

    void fault(std::size_t offset, std::string message) { result.faults.push_back({offset, std::move(message)}); }
    void advance() { token = next_token(text, token.offset + token.text.size()); }
};

void add_operand(Parser& parser, Operand operand) {
    operand.negative = parser.negative;
    parser.result.structure += operand_name(parser.result.operands.size());
    parser.result.operands.push_back(operand);
    parser.negative = false;
    parser.wants_value = false;
}

void take_number(Parser& parser) {
    const double number = number_of(parser.token.text);
    if (!std::isfinite(number)) parser.fault(parser.token.offset, "number " + std::string(parser.token.text) + " is too large");
    add_operand(parser, {none, false, number});
    parser.advance();
}

std::string with_nearest(Parser& parser, const std::string& message, std::string_view name,
                         std::span<const std::string_view> known) {
    const std::string nearest = find_nearest_name(name, known, parser.hints);
    return nearest.empty() ? message : message + ", nearest is " + quoted(nearest);
}

std::uint32_t find_input(Parser& parser, std::string_view name) {
    constexpr std::size_t few = 16;
    if (parser.inputs.size() <= few) {
        const auto found = std::find(parser.inputs.begin(), parser.inputs.end(), name);
        return found == parser.inputs.end() ? none : static_cast<std::uint32_t>(found - parser.inputs.begin());
    }
    if (parser.index_of_input.empty())
        for (std::uint32_t i = 0; i < parser.inputs.size(); ++i) parser.index_of_input.try_emplace(parser.inputs[i], i);
    const auto found = parser.index_of_input.find(name);
    return found == parser.index_of_input.end() ? none : found->second;
}

void take_input(Parser& parser, const Token& name) {
    const std::uint32_t input = find_input(parser, name.text);
    if (std::any_of(name.text.begin(), name.text.end(), is_beyond_ascii))
        parser.fault(name.offset,
                     quoted(name.text) + " cannot stand in an expression, names in it have letters a to z, digits and \"_\"");
    else if (input == none)
        parser.fault(name.offset, with_nearest(parser, "unknown input " + quoted(name.text), name.text, parser.inputs));
    add_operand(parser, {input, false, 0.0});
}

void open_level(Parser& parser, const Token& name) {
    Level level{.offset = name.offset, .is_call = !name.text.empty()};
    if (parser.negative) parser.result.structure += "n(";
    if (level.is_call) {
        const auto function =
            std::find_if(functions.begin(), functions.end(), [&](const Function& f) { return f.name == name.text; });
        if (function != functions.end())
            level.function = &*function;
        else
            parser.fault(name.offset, with_nearest(parser, "unknown function " + quoted(name.text), name.text, function_names));
        parser.result.structure.append(name.text) += '(';
        level.closes_twice = parser.negative;
    } else if (!parser.negative) {
        parser.result.structure += '(';
    }
    parser.negative = false;
    parser.levels.push_back(level);
    parser.advance();
    if (level.is_call && parser.token.word == Word::close) {
        parser.levels.back().values = 0;
        parser.wants_value = false;
    }
}

void close_level(Parser& parser) {
    const Level level = parser.levels.back();
    parser.levels.pop_back();
    if (const Function* function = level.function; function && (level.values < function->least || level.values > function->most))
        parser.fault(level.offset, std::string(function->name) + " wants " + std::string(function->wanted) + ", found " +
                                       std::to_string(level.values));
    parser.result.structure += level.closes_twice ? "))" : ")";
}

void take_value(Parser& parser) {
    const Token token = parser.token;
    switch (token.word) {
        case Word::number:
            take_number(parser);
            break;
        case Word::name:
            parser.advance();
            if (parser.token.word == Word::open)
                open_level(parser, token);
            else
                take_input(parser, token);
            break;
        case Word::sign:
            if (token.text == "-") parser.negative = !parser.negative;
            parser.advance();
            break;
        case Word::open:
            open_level(parser, {Word::open, token.offset, {}});
            break;
        case Word::unknown:
            parser.fault(token.offset, quoted(token) + " is not understood here");
            parser.advance();
            break;
        default:
            parser.fault(token.offset, "wanted a number, an input or \"(\", found " + quoted(token));
            add_operand(parser, {none, false, 0.0});
    }
}

void take_comparison(Parser& parser) {
    Level& level = parser.levels.back();
    if (level.compared)
        parser.fault(parser.token.offset, quoted(parser.token) + " is a second comparison, put the first one in parentheses");
    level.compared = true;
}

void take_comma(Parser& parser) {
    Level& level = parser.levels.back();
    if (!level.is_call) parser.fault(parser.token.offset, "\",\" stands only between the values of a function");
    ++level.values;
    level.compared = false;
}

void take_operator(Parser& parser) {
    const Token token = parser.token;
    switch (token.word) {
        case Word::close:
            if (parser.levels.size() == 1)
                parser.fault(token.offset, "\")\" has no \"(\" before it");
            else
                close_level(parser);
            parser.advance();
            return;
        case Word::number:
        case Word::name:
        case Word::open:
            parser.fault(token.offset, "wanted an operator before " + quoted(token));
            parser.wants_value = true;
            return;
        case Word::comparison:
            take_comparison(parser);
            break;
        case Word::comma:
            take_comma(parser);
            break;
        case Word::unknown:
            parser.fault(token.offset, quoted(token) + " is not understood here");
            break;
        default:
            break;
    }
    parser.result.structure += token.text;
    parser.wants_value = true;
    parser.advance();
}

}  // namespace

std::string key_of_expression(std::string_view text, std::span<const std::string_view> inputs) {
    std::string key = std::to_string(inputs.size());
    for (const std::string_view input : inputs) key.append(",").append(std::to_string(input.size())).append(":").append(input);
    return key.append(";").append(text);
}

std::string operand_name(std::size_t n) {
    std::string name;
    for (++n; n > 0; n = (n - 1) / 26) name.insert(name.begin(), static_cast<char>('A' + (n - 1) % 26));
    return name;
}

bool ParsedExpression::uses(std::uint32_t input) const {
    return std::any_of(operands.begin(), operands.end(), [&](const Operand& operand) { return operand.input == input; });
}

ParsedExpression parse_expression(std::string_view text, std::span<const std::string_view> inputs) {
    NearestNameBudget hints;
    return parse_expression(text, inputs, hints);
}

ParsedExpression parse_expression(std::string_view text, std::span<const std::string_view> inputs, NearestNameBudget& hints) {
    Parser parser{.text = text, .inputs = inputs, .hints = hints};
    if (text.size() > expression_length_limit) {
        parser.fault(0, "expression of " + std::to_string(text.size()) + " characters, at most " +
                            std::to_string(expression_length_limit) + " are taken");
        return std::move(parser.result);
    }
    parser.token = next_token(text, 0);
    if (parser.token.word == Word::end) {
        parser.fault(0, "expression is empty");
        return std::move(parser.result);
    }
    while (parser.wants_value || parser.token.word != Word::end) {
        if (parser.wants_value)
            take_value(parser);
        else
            take_operator(parser);
        if (parser.levels.size() > expression_depth_limit + 1) {
            parser.fault(parser.levels.back().offset, "parentheses nested deeper than " + std::to_string(expression_depth_limit));
            return std::move(parser.result);
        }
    }
    for (std::size_t i = 1; i < parser.levels.size(); ++i) parser.fault(parser.levels[i].offset, "parenthesis is not closed");
    std::stable_sort(parser.result.faults.begin(), parser.result.faults.end(),
                     [](const ExpressionFault& a, const ExpressionFault& b) { return a.offset < b.offset; });
    return std::move(parser.result);
}

}  // namespace ligament
