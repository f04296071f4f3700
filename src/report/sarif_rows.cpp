#include "sarif_rows.hpp"

#include <algorithm>

#include "ligament/checks.hpp"
#include "ligament/version.hpp"
#include "markdown_text.hpp"

namespace ligament::sarif {

namespace {

Row rule_row(const Check& check) {
    const auto text = [](std::string_view words) { return message(escaped(words)); };
    const std::string what(check.what), harm(check.harm), mend(check.mend);
    Row help = message(escaped(what) + "\n\nWhy it hurts: " + escaped(harm) + "\n\nHow to mend it: " + escaped(mend));
    help["markdown"] = markdown_text(what) + "\n\n**Why it hurts:** " + markdown_text(harm) + "\n\n**How to mend it:** " +
                       markdown_text(mend) + '\n';
    return {{"id", check.name},
            {"shortDescription", text(check.summary)},
            {"fullDescription", text(check.what)},
            {"help", std::move(help)},
            {"defaultConfiguration", {{"level", level_of(check.severity)}}}};
}

Row logical(std::string_view name, std::string_view kind) {
    return {{"name", name}, {"fullyQualifiedName", name}, {"kind", kind}};
}

}  // namespace

// In a message of SARIF 2.1.0 `{0}` stands for an argument (section 3.11.5), so that braces are doubled, and `[text](target)` is
// a link (3.11.6); a bracket alone means nothing, and stays as it is.
std::string escaped(std::string_view text) {
    const std::string shown = printable(text);
    const bool may_be_link = shown.find("](") != std::string::npos;
    std::string out;
    for (const char c : shown) {
        if (may_be_link && (c == '[' || c == ']')) out += '\\';
        if (c == '{' || c == '}') out += c;
        out += c;
    }
    return out;
}

Row message(std::string text) { return {{"text", std::move(text)}}; }

std::string uri_of(std::string_view path) {
    std::string uri = path.starts_with('/') ? "file://" : "";
    while (path.starts_with("./"))
        path.remove_prefix(path.find_first_not_of('/', 1) == std::string_view::npos ? path.size()
                                                                                    : path.find_first_not_of('/', 1));
    for (const char c : path) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                           std::string_view("-._~/").find(c) != std::string_view::npos;
        const auto byte = static_cast<unsigned char>(c);
        if (plain)
            uri += c;
        else
            uri.append("%") += {"0123456789ABCDEF"[byte >> 4U], "0123456789ABCDEF"[byte & 0xfU]};
    }
    return uri;
}

Row artifact_of(std::string_view source) {
    if (source == "-")
        return {{"location", {{"description", message("standard input")}}}, {"roles", {"analysisTarget", "standardStream"}}};
    return {{"location", {{"uri", uri_of(source)}}}, {"roles", Row::array({"analysisTarget"})}};
}

Row physical_location(std::string_view source, Place place) {
    Row location;
    Row& artifact = location["artifactLocation"];
    if (source != "-") artifact["uri"] = uri_of(source);
    artifact["index"] = 0;
    if (place.line > 0) {
        location["region"]["startLine"] = place.line;
        if (place.column > 0) location["region"]["startColumn"] = place.column;
    }
    return location;
}

std::string_view level_of(Severity severity) { return name_of(severity); }  // the words are the same

Row tool() {
    Row rules = Row::array();
    for (const Check& check : all_checks()) rules.push_back(rule_row(check));
    return {
        {"driver", {{"name", "ligament"}, {"version", version()}, {"semanticVersion", version()}, {"rules", std::move(rules)}}}};
}

std::optional<std::size_t> rule_index(std::string_view check) {
    const auto checks = all_checks();
    const auto found = std::find_if(checks.begin(), checks.end(), [&](const Check& one) { return one.name == check; });
    if (found == checks.end()) return {};
    return static_cast<std::size_t>(found - checks.begin());
}

LogicalNames::LogicalNames(const Report& report) {
    for (const Property& property : report.rig.properties) properties_.insert(property.name);
    for (const Object& object : report.rig.objects) objects_.insert(object.name);
    const auto& makers = report.dependencies.makers;
    for (std::size_t i = 0; i < makers.size(); ++i) {
        const Maker::Kind kind = makers[i].kind;
        if (kind == Maker::Kind::constraint || kind == Maker::Kind::driver || kind == Maker::Kind::solver)
            makers_.emplace(name_of(report.rig, report.dependencies, static_cast<MakerId>(i)), name_of(edge_kind_of(kind)));
    }
}

Row LogicalNames::of(const Identity& identity) const {
    Row names = Row::array();
    for (const std::string& bone : identity.bones) names.push_back(logical(bone, "bone"));
    if (!identity.subject.empty())
        names.push_back(logical(identity.subject, properties_.contains(identity.subject) ? "property"
                                                  : objects_.contains(identity.subject)  ? "object"
                                                                                         : "subject"));
    if (const auto maker = makers_.find(identity.maker); maker != makers_.end())
        names.push_back(logical(identity.maker, maker->second));
    return names;
}

}  // namespace ligament::sarif
