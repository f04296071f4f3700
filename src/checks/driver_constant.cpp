// Which drivers compute a value that cannot change?
#include <algorithm>
#include <cctype>

#include "words.hpp"

namespace ligament::checks {

namespace {

bool is_word(char c) { return std::isalnum(static_cast<unsigned char>(c)) || c == '_'; }

// Where the number that starts at `i` ends. "1e5" holds no name, "2*e" does.
std::size_t skip_number(std::string_view text, std::size_t i) {
    auto digits = [&] {
        while (i < text.size() && (std::isdigit(static_cast<unsigned char>(text[i])) || text[i] == '.')) ++i;
    };
    digits();
    if (i < text.size() && (text[i] == 'e' || text[i] == 'E')) {
        std::size_t exponent = i + 1;
        if (exponent < text.size() && (text[exponent] == '+' || text[exponent] == '-')) ++exponent;
        if (exponent < text.size() && std::isdigit(static_cast<unsigned char>(text[exponent]))) {
            i = exponent;
            digits();
        }
    }
    return i;
}

// An input may be called like a function: `min` is one where no parenthesis follows.
bool names_an_input(const Driver& driver) {
    const std::string_view text = driver.expression;
    for (std::size_t i = 0; i < text.size();) {
        if (std::isdigit(static_cast<unsigned char>(text[i])) || text[i] == '.') {
            i = skip_number(text, i);
        } else if (is_word(text[i])) {
            const std::size_t start = i;
            while (i < text.size() && is_word(text[i])) ++i;
            const std::string_view word = text.substr(start, i - start);
            const std::size_t next = text.find_first_not_of(" \t\r\n", i);
            const bool call = next != std::string_view::npos && text[next] == '(';
            if (!call &&
                std::any_of(driver.inputs.begin(), driver.inputs.end(), [&](const Input& input) { return input.name == word; }))
                return true;
        } else {
            ++i;
        }
    }
    return false;
}

bool is_flat(const std::vector<std::array<double, 2>>& curve) {
    return std::all_of(curve.begin(), curve.end(), [&](const auto& point) { return point[1] == curve.front()[1]; });
}

// What the driver drives as words, and the finding that is about it.
Finding finding_about_driven(const Checked& checked, const Check& self, DriverId id, std::string& driven) {
    const DriverUse& use = checked.dependencies.driver_uses[id];
    if (use.target == DriverUse::Target::property) {
        driven = "property " + quoted(checked.rig.properties[use.element].name);
        return finding_about_property(self, checked.rig, use.element);
    }
    if (use.target == DriverUse::Target::channel) {
        driven = "channel " + quoted(checked.rig.bones[use.element].name + "/" + std::string(channel_name(use.index)));
        return finding_about(self, checked.rig, use.element);
    }
    driven = use.target == DriverUse::Target::weight ? "the weight of "
                                                     : "the weight of source " + std::to_string(use.index + 1) + " of ";
    driven += quoted(constraint_name(checked.rig, checked.dependencies, use.element));
    return finding_about(self, checked.rig, checked.dependencies.constraints[use.element].bone);
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    for (DriverId id = 0; id < checked.rig.drivers.size(); ++id) {
        const Driver& driver = checked.rig.drivers[id];
        if (checked.dependencies.driver_uses[id].target == DriverUse::Target::nothing) continue;
        const bool by_curve = driver.expression.empty();
        if (by_curve ? !is_flat(driver.curve) : names_an_input(driver)) continue;
        std::string driven;
        Finding finding = finding_about_driven(checked, self, id, driven);
        finding.maker = driven;
        finding.place = driver.place;
        finding.message = "the driver of " + driven + " cannot change: ";
        finding.message += by_curve ? "its curve is flat" : "its expression " + quoted(driver.expression) + " names no input";
        finding.hint = "write the number itself, or let the driver use what it should follow";
        findings.push_back(std::move(finding));
    }
}

}  // namespace

extern constinit const Check driver_constant{
    .name = "driver-constant",
    .severity = Severity::warning,
    .summary = "a driver whose value cannot change",
    .what =
        "The expression names none of its inputs, or all points of the curve have the same height: whatever its inputs do, the "
        "driver gives one number.",
    .harm =
        "It costs evaluation time, makes dependencies that mean nothing, and hides a mistake, often a variable lost while "
        "editing.",
    .mend = "Name the input in the expression, give the curve its slope, or write the number in place of the driver.",
    .find = find,
};

}  // namespace ligament::checks
