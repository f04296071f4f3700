// Which rules hold for a rig: the file that is found above it, and all that this extends?
#include <algorithm>
#include <filesystem>
#include <iterator>

#include "draft.hpp"
#include "ligament/whole_file.hpp"
#include "read_rules.hpp"

namespace ligament {

namespace {

constexpr std::size_t file_limit = std::size_t{1} << 26U;
constexpr std::size_t most_files = 100;

std::string beside(const std::string& file, const std::string& named) {
    return (std::filesystem::path(file).parent_path() / named).lexically_normal().string();
}

/// Reads a file and those that it extends, each once: these first, so that what comes later goes before what came earlier.
struct Gatherer {
    RulesResult result;
    std::vector<std::string> open;  // the files on the way down
    std::vector<std::pair<std::string, SaidRules>> said;

    void complain(const std::string& file, Fault fault) {
        const auto known = std::find_if(result.faulty.begin(), result.faulty.end(),
                                        [&](const FaultyFile& faulty) { return faulty.file == file; });
        FaultyFile& faulty = known == result.faulty.end() ? result.faulty.emplace_back(FaultyFile{file, {}}) : *known;
        faulty.faults.push_back(std::move(fault));
    }

    void gather(const std::string& file) {
        result.files.push_back(file);
        std::string text;
        if (const std::string reason = read_whole_file(file, file_limit, text); !reason.empty())
            return complain(file, {{0, 0}, reason});
        FaultList faults;
        SaidRules read = read_said_rules(text, faults);
        for (Fault& fault : faults.take()) complain(file, std::move(fault));
        open.push_back(file);
        for (const auto& [named, place] : read.extends) follow(file, beside(file, named), place);
        open.pop_back();
        said.emplace_back(file, std::move(read));
    }

    void follow(const std::string& file, const std::string& path, Place place) {
        if (std::find(open.begin(), open.end(), path) != open.end())
            complain(file, {place, "\"extends\" goes in a circle: " + in_quotes(path) + " extends this file"});
        else if (result.files.size() >= most_files)
            complain(file, {place, "more than " + std::to_string(most_files) + " rules files hang together"});
        else if (std::find(result.files.begin(), result.files.end(), path) == result.files.end())
            gather(path);
    }
};

void put_over(Rules& rules, const std::string& file, SaidRules said) {
    for (auto& severity : said.rules.severities) rules.severities.push_back(std::move(severity));
    if (said.fan_out) rules.thresholds.fan_out = *said.fan_out;
    for (const auto& [member, value] : said.thresholds) rules.thresholds.*member = value;
    for (const auto& [member, value] : said.costs) rules.costs.*member = value;
    if (said.rules.roots) rules.roots = std::move(said.rules.roots);
    // The first layer that fits decides.
    rules.layers.insert(rules.layers.begin(), std::make_move_iterator(said.rules.layers.begin()),
                        std::make_move_iterator(said.rules.layers.end()));
    for (NamePattern& name : said.rules.names) rules.names.push_back(std::move(name));
    for (Acceptance& accepted : said.rules.accepted) {
        accepted.file = file;
        rules.accepted.push_back(std::move(accepted));
    }
}

}  // namespace

RulesResult read_rules(const std::string& path) {
    Gatherer gatherer;
    gatherer.gather(path);
    if (!gatherer.result.faulty.empty()) return std::move(gatherer.result);
    Rules rules;
    rules.file = path;
    for (auto& [file, said] : gatherer.said) put_over(rules, file, std::move(said));
    gatherer.result.rules = std::move(rules);
    return std::move(gatherer.result);
}

std::optional<Rules> read_rules_text(std::string_view text) {
    FaultList faults;
    SaidRules said = read_said_rules(text, faults);
    if (!faults.empty()) return {};
    Rules rules;
    put_over(rules, {}, std::move(said));
    return rules;
}

std::string find_rules_file(const std::string& rig_path) {
    std::error_code error;
    std::filesystem::path folder = std::filesystem::absolute(rig_path == "-" ? "." : rig_path, error).lexically_normal();
    if (error) return {};
    folder = folder.parent_path();
    for (;; folder = folder.parent_path()) {
        const std::filesystem::path file = folder / "ligament.rules.json";
        if (std::filesystem::exists(file, error)) return file.string();
        if (folder == folder.parent_path()) return {};
    }
}

}  // namespace ligament
