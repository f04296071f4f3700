// What does a rig description say? JSON, led through the tables of keys.
#include <algorithm>

#include "json_events.hpp"
#include "ligament/read.hpp"
#include "table_reader.hpp"

namespace ligament {

namespace {

constexpr Slot rig_slot{.wanted = "a rig description (an object)", .object = &rig_shape};

// The draft and who fills it.
struct DraftReader : TableReader {
    explicit DraftReader(std::unique_ptr<Draft> made) : TableReader(*made, rig_slot), draft(std::move(made)) {}
    std::unique_ptr<Draft> draft;
};

}  // namespace

ReadResult read_rig(std::string_view text, const ReadOptions& options) {
    const bool has_mark = text.starts_with(byte_order_mark);
    if (has_mark) text.remove_prefix(byte_order_mark.size());
    return read_json(
        text, options.value_limit, [] { return DraftReader(std::make_unique<Draft>()); },
        [&](DraftReader& reader, bool is_complete, const std::unique_ptr<std::string>&) {
            Draft& draft = *reader.draft;
            if (has_mark) draft.fault({1, 1}, "a byte order mark is not taken, save the file as UTF-8 without one");
            if (is_complete) resolve_names(draft);
            return finish(draft);
        });
}

}  // namespace ligament
