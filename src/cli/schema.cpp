// `ligament schema`: what may stand in a rig description?
#include "commands.hpp"
#include "ligament/read.hpp"
#include "output.hpp"
#include "status.hpp"

namespace ligament::cli {

Run add_schema(CLI::App& app);

Run add_schema(CLI::App& app) {
    app.footer("Example:\n  ligament schema > rig-description.schema.json");
    return [] {
        Output output;
        output.stream() << rig_description_schema();
        output.commit();
        return fine;
    };
}

}  // namespace ligament::cli
