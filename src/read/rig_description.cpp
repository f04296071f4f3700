// What does a rig description say? JSON, led through the tables of keys.
#include <memory>

#include "json_scanner.hpp"
#include "ligament/read.hpp"
#include "table_reader.hpp"

namespace ligament {

namespace {

constexpr Slot rig_slot{.wanted = "a rig description (an object)", .object = &rig_shape};

}  // namespace

ReadResult read_rig(std::string_view text, const ReadOptions& options) {
    const bool has_mark = text.starts_with(byte_order_mark);
    if (has_mark) text.remove_prefix(byte_order_mark.size());
    const auto draft = std::make_unique<Draft>();  // large for a stack
    draft->text_size = text.size();
    TableReader reader(*draft, rig_slot);
    const bool is_complete = JsonScanner(text, options.value_limit, reader).run();
    if (has_mark) draft->fault({1, 1}, "a byte order mark is not taken, save the file as UTF-8 without one");
    if (is_complete) resolve_names(*draft);
    return finish(*draft);
}

}  // namespace ligament
