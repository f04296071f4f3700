// What do reports of a tiny rig say?
#pragma once

#include <sstream>
#include <string>

#include "ligament/report.hpp"
#include "tiny_rig.hpp"

namespace ligament::testing {

/// A rig with all that a report speaks about. Not to be copied: the report refers to the members.
struct Reported {
    Rig rig;
    Dependencies dependencies = build_dependencies(rig);
    Facts facts = find_facts(rig, dependencies);
    std::vector<Finding> findings = find_findings(rig, dependencies, facts);
    Report report{"tiny.rig.json", rig, dependencies, facts, findings};

    explicit Reported(Rig of) : rig(std::move(of)) {}
    Reported(std::string_view bones, std::string_view rest = {}) : Reported(tiny_rig(bones, rest)) {}
    Reported(const Reported&) = delete;
    Reported& operator=(const Reported&) = delete;

    std::string text(TextStyle style = {}) const {
        std::ostringstream out;
        write_text(out, report, style);
        return out.str();
    }
    std::string json() const {
        std::ostringstream out;
        write_json(out, report);
        return out.str();
    }
    std::string order_json() const {
        std::ostringstream out;
        write_order_json(out, report);
        return out.str();
    }
};

}  // namespace ligament::testing
