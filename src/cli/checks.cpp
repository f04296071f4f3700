// `ligament checks`: what is looked for?
#include "ligament/checks.hpp"
#include "commands.hpp"
#include "output.hpp"
#include "status.hpp"
#include "table.hpp"

namespace ligament::cli {

Run add_checks(CLI::App& app);

namespace {

int list_checks() {
    Output output;
    std::vector<std::vector<std::string>> rows{{"check", "severity", "says"}};
    for (const Check& check : all_checks())
        rows.push_back({std::string(check.name), std::string(name_of(check.severity)), std::string(check.summary)});
    write_table(output.stream(), rows, 0);
    output.commit();
    return fine;
}

}  // namespace

Run add_checks(CLI::App& app) {
    app.footer("Examples:\n  ligament checks");
    return list_checks;
}

}  // namespace ligament::cli
