// `ligament schema`: what may stand in a rig description, or in a rules file?
#include <memory>
#include <string>

#include "commands.hpp"
#include "ligament/read.hpp"
#include "ligament/review.hpp"
#include "output.hpp"
#include "status.hpp"

namespace ligament::cli {

Run add_schema(CLI::App& app);

Run add_schema(CLI::App& app) {
    auto of = std::make_shared<std::string>("rig");
    app.add_option("OF", *of, "rig for rig descriptions, rules for rules files")
        ->check(CLI::IsMember({"rig", "rules"}))
        ->capture_default_str()
        ->type_name("");
    app.footer("Examples:\n  ligament schema > rig-description.schema.json\n  ligament schema rules > rules.schema.json");
    return [of] {
        Output output;
        output.stream() << (*of == "rules" ? rules_schema() : rig_description_schema());
        output.commit();
        return fine;
    };
}

}  // namespace ligament::cli
