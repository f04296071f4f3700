// The table of commands. A new one is one file and two lines here.
#include "commands.hpp"

#include <array>

namespace ligament::cli {

Run add_check(CLI::App& app);
Run add_watch(CLI::App& app);
Run add_merge(CLI::App& app);
Run add_compare(CLI::App& app);
Run add_cycles(CLI::App& app);
Run add_order(CLI::App& app);
Run add_controls(CLI::App& app);
Run add_states(CLI::App& app);
Run add_trace(CLI::App& app);
Run add_fan_out(CLI::App& app);
Run add_draw(CLI::App& app);
Run add_report(CLI::App& app);
Run add_convert(CLI::App& app);
Run add_checks(CLI::App& app);
Run add_explain(CLI::App& app);
Run add_schema(CLI::App& app);
Run add_completion(CLI::App& app);
Run add_manual(CLI::App& app);

std::span<const Command> all_commands() {
    static constexpr std::array<Command, 18> table{{
        {"check", "say what is wrong with rigs", add_check},
        {"watch", "check a rig again whenever it is saved", add_watch, /*is_lasting=*/true},
        {"merge", "put the shards of one check together", add_merge},
        {"compare", "show what changed between two revisions of a rig, and what got worse", add_compare},
        {"cycles", "show what is circular, where to cut it best, and by which ways it closes", add_cycles},
        {"order", "show an order in which bones can be evaluated", add_order},
        {"controls", "show whom each control moves, and who moves only through it", add_controls},
        {"states", "show which controls move which deform bones as each switch stands", add_states},
        {"trace", "show what a bone needs, what it moves, and by which path", add_trace},
        {"fan-out", "show what properties reach", add_fan_out},
        {"draw", "draw how a rig is built, one question a page, as SVG", add_draw},
        {"report", "write a page to explore: drawings, search, findings, tables", add_report},
        {"convert", "write what was read as a rig description", add_convert},
        {"checks", "list the checks", add_checks},
        {"explain", "explain a check: what it finds, why it hurts, how to mend it, with an example", add_explain},
        {"schema", "print the JSON Schema of the rig description, or of rules files", add_schema},
        {"completion", "print what completes calls in a shell", add_completion},
        {"manual", "print the manual page", add_manual},
    }};
    return table;
}

}  // namespace ligament::cli
