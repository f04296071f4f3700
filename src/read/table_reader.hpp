// Which tokens may follow each other in a rig description, and who takes them? Leads tokens through the tables of keys.
#pragma once

#include "draft.hpp"

namespace ligament {

/// Takes the tokens of one value, by the tables that `root` leads to, into a draft. It is a handler of JsonScanner; values that
/// no table speaks of (`extras`, and what stands where it should not) are skipped.
class TableReader {
  public:
    TableReader(Draft& draft, const Slot& root) : draft_(draft), root_(root) {}

    void scalar(const Token& token);
    void key(const Token& token);
    void open(const Token& token);
    void close();
    void spoiled(Place) {
        if (!skips()) slot_to_come();
    }
    void fault(Place place, std::string message) { draft_.fault(place, std::move(message)); }

  private:
    bool skips() const { return skip_depth_ > 0; }
    const Slot* slot_to_come();
    std::string subject(const Slot& slot, std::size_t up);
    void refuse(const Slot& slot, const Token& token);
    void open_frame(const Shape& shape, const Slot& slot, Place place);
    void open_skipped(Token::Type type);
    void find_slot(const Token& key);
    void check_entries(const Frame& frame);

    Draft& draft_;
    const Slot& root_;
    std::size_t skip_depth_ = 0;  // lists and objects open in a value that is skipped, itself included
    std::vector<std::unordered_set<std::string>> skipped_keys_;
};

}  // namespace ligament
