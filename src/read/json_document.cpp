#include "json_document.hpp"

#include <algorithm>

#include "draft.hpp"
#include "json_scanner.hpp"

namespace ligament {

namespace {

// Makes items of tokens. A handler of JsonScanner.
class DocumentReader {
  public:
    explicit DocumentReader(FaultList& faults) : faults_(faults) {}

    void scalar(const Token& token) {
        JsonItem& item = add(token);
        item.text = lasting(token);
        item.number = token.number;
        item.flag = token.flag;
    }
    void key(const Token& token) {
        key_ = lasting(token);
        key_place_ = token.place;
    }
    void open(const Token& token) {
        add(token);
        open_.push_back(static_cast<std::uint32_t>(document_.items.size() - 1));
        sizes_.push_back(0);
    }
    void close() {
        JsonItem& item = document_.items[open_.back()];
        item.end = static_cast<std::uint32_t>(document_.items.size());
        if (item.type == Token::Type::object) find_double_keys(open_.back());
        open_.pop_back();
        sizes_.pop_back();
    }
    void spoiled(Place place) { add({.type = Token::Type::null, .place = place}).flag = true; }
    void fault(Place place, std::string message) { faults_.add({place, std::move(message), {}}); }

    JsonDocument take() { return std::move(document_); }

  private:
    JsonItem& add(const Token& token) {
        JsonItem& item = document_.items.emplace_back();
        item.type = token.type;
        item.place = token.place;
        item.end = static_cast<std::uint32_t>(document_.items.size());
        if (open_.empty()) return item;
        item.parent = open_.back();
        item.position = sizes_.back()++;
        if (document_.items[item.parent].type != Token::Type::object) return item;
        item.key = key_;
        item.key_place = key_place_;
        return item;
    }

    std::string_view lasting(const Token& token) {
        if (token.lasts || token.text.empty()) return token.text;
        return *document_.decoded.emplace_back(std::make_unique<std::string>(token.text));
    }

    void find_double_keys(std::uint32_t object) {
        keys_.clear();
        const std::vector<JsonItem>& items = document_.items;
        for (const std::uint32_t i : document_.inside(object)) keys_.emplace_back(items[i].key, i);
        std::sort(keys_.begin(), keys_.end());
        for (std::size_t i = 1; i < keys_.size(); ++i)
            if (keys_[i].first == keys_[i - 1].first)
                faults_.add({items[keys_[i].second].place, "key " + in_quotes(keys_[i].first) + " stands twice in an object",
                             document_.pointer_to(object)});
    }

    FaultList& faults_;
    JsonDocument document_;
    std::vector<std::uint32_t> open_, sizes_;  // the lists and objects that are open, and how many values each has so far
    std::string_view key_;                     // of the value to come
    Place key_place_;
    std::vector<std::pair<std::string_view, std::uint32_t>> keys_;  // scratch
};

void append_escaped(std::string& pointer, std::string_view key) {
    for (const char c : key)
        if (c == '~')
            pointer += "~0";
        else if (c == '/')
            pointer += "~1";
        else
            pointer += c;
}

}  // namespace

std::uint32_t JsonDocument::find(std::uint32_t object, std::string_view key) const {
    if (object == none || items[object].type != Token::Type::object) return none;
    for (const std::uint32_t i : inside(object))
        if (items[i].key == key) return i;
    return none;
}

std::uint32_t JsonDocument::find(std::uint32_t object, std::initializer_list<std::string_view> keys) const {
    for (const std::string_view key : keys) object = find(object, key);
    return object;
}

std::uint32_t JsonDocument::size_of(std::uint32_t list) const {
    std::uint32_t size = 0;
    for (auto at = inside(list).begin(); at != inside(list).end(); ++at) ++size;
    return size;
}

std::string JsonDocument::pointer_to(std::uint32_t item) const {
    std::vector<std::uint32_t> path;
    for (; items[item].parent != none; item = items[item].parent) path.push_back(item);
    std::string pointer;
    for (auto at = path.rbegin(); at != path.rend(); ++at) {
        if (pointer.size() + items[*at].key.size() >= pointer_limit) return {};
        pointer += '/';
        if (items[items[*at].parent].type == Token::Type::list)
            pointer += std::to_string(items[*at].position);
        else
            append_escaped(pointer, items[*at].key);
    }
    if (pointer.size() > pointer_limit) return {};
    return pointer;
}

JsonDocument read_json_document(std::string_view text, std::size_t value_limit, FaultList& faults) {
    DocumentReader reader(faults);
    const bool is_complete = JsonScanner(text, value_limit, reader).run();
    JsonDocument document = reader.take();
    document.is_complete = is_complete;
    return document;
}

}  // namespace ligament
