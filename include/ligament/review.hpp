// Which findings count? What the rules of a project accept, what an earlier revision had already, and what is gone since.
#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ligament/checks.hpp"

namespace ligament {

/// What makes a finding the same one in another revision: no lines, no counts.
struct Identity {
    std::string check;
    std::vector<std::string> bones;  ///< names, in file order
    std::string subject;
    std::string maker;

    friend auto operator<=>(const Identity&, const Identity&) = default;
};

Identity identity_of(const Rig& rig, const Finding& finding);

/// What is wrong with one file.
struct FaultyFile {
    std::string file;
    std::vector<Fault> faults;
};

/// What reading rules gave: `rules` is set exactly when nothing is wrong.
struct RulesResult {
    std::optional<Rules> rules;
    std::vector<FaultyFile> faulty;
    std::vector<std::string> files = {};  ///< all that were read, or that should have been: the first one, then those it extends
};

/// Reads a rules file (format "rig-rules", version 1) with all that it extends; files are named from the folder of the file that
/// names them. What a file says itself goes before what it extends: of severities, thresholds, costs and roots key by key, of
/// layers in order; names and accepted findings are those of all of them.
RulesResult read_rules(const std::string& path);

/// The rules that a text holds, without those that it extends; nothing where there is something wrong with it.
std::optional<Rules> read_rules_text(std::string_view text);

/// The nearest file called `ligament.rules.json` in the folder of `rig_path` (of "-": the current one) and those above it, as an
/// absolute path, or an empty text.
std::string find_rules_file(const std::string& rig_path);

/// The JSON Schema (draft 2020-12) of rules files.
std::string_view rules_schema();

/// Takes as root controls the bones that the rules name, where they name some. To be done before dependencies are built.
void apply_roots(Rig& rig, const Rules& rules);

/// "2026-11-27", or nothing where it is no day of the calendar.
std::optional<Day> read_day(std::string_view text);

/// The findings of one rig that a baseline holds.
struct KnownFindings {
    std::string source;  ///< path of the rig from the folder of the baseline, with "/"
    std::vector<Identity> findings;
};

/// What was accepted as it was: format "rig-baseline", version 1.
struct Baseline {
    std::vector<KnownFindings> rigs;  ///< by source

    /// Nothing where it holds no such rig.
    const KnownFindings* find(std::string_view source) const;
    /// In the place of what it holds of the rig, if it does.
    void put(KnownFindings known);
};

struct BaselineResult {
    std::optional<Baseline> baseline;
    std::vector<Fault> faults;
};

/// Reads a baseline from its whole text. What is no baseline is a fault, never an empty one.
BaselineResult read_baseline(std::string_view text);

/// One finding a line, so that revisions can be compared line by line; ends with a newline.
std::string write_baseline(const Baseline& baseline);

/// A finding that does not count.
struct SetAside {
    enum class By : std::uint8_t { rules, baseline };
    Finding finding;
    By by = By::rules;
    std::string reason;  ///< of the rules; empty for a baseline
};

/// Findings as they are told once rules and a baseline were looked at.
struct Review {
    std::vector<Finding> findings;    ///< those that count, in the order of find_findings
    std::vector<SetAside> set_aside;  ///< in that order, too
    bool has_baseline = false;
    std::vector<Identity> gone;  ///< in the baseline, but not found any more; in the order of the baseline
};

/// Sets aside what the rules accept on that day, and of the rest what `known` holds (null: no baseline; one without findings is a
/// baseline that knows nothing). A finding that was accepted up to an earlier day counts again, and its hint says so.
Review review_findings(const Rig& rig, std::vector<Finding> findings, const Rules& rules, const KnownFindings* known, Day today);

}  // namespace ligament
