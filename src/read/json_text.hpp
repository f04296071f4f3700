// Where in the text does the JSON reader stand, and where it gives up, why?
#pragma once

#include <cstdint>
#include <iterator>
#include <string>
#include <string_view>
#include <vector>

#include "ligament/finding.hpp"

namespace ligament {

/// An input iterator over a text that tells how far it was read, so that the events of nlohmann's SAX interface, which carry no
/// place, can be given one.
class CountingIterator {
  public:
    using iterator_category = std::input_iterator_tag;
    using value_type = char;
    using difference_type = std::ptrdiff_t;
    using pointer = const char*;
    using reference = const char&;

    CountingIterator(const char* at, const char** reached) : at_(at), reached_(reached) {}
    reference operator*() const { return *at_; }
    CountingIterator& operator++() {
        *reached_ = ++at_;
        return *this;
    }
    CountingIterator operator++(int) {
        const CountingIterator before = *this;
        ++*this;
        return before;
    }
    friend bool operator==(const CountingIterator& a, const CountingIterator& b) { return a.at_ == b.at_; }
    friend bool operator!=(const CountingIterator& a, const CountingIterator& b) { return a.at_ != b.at_; }

  private:
    const char* at_;
    const char** reached_;
};

/// A byte of the text and its place. Moves forward only, so that all places of a text together cost one pass over it, also where
/// the whole text is one line.
struct TextCursor {
    const char* at = nullptr;
    Place place{1, 1};

    /// Over what may stand between two tokens of valid JSON, to the start of the next one. There must be a next one.
    void skip_between_tokens();
    /// To `end`, over text without line breaks in ASCII.
    void skip_ascii(const char* end);
    /// To `end`, over text without line breaks: columns count code points.
    void skip_line_part(const char* end);
    /// To `end`, over any text.
    void skip_text(const char* end);
};

/// What the JSON reader had seen last when it gave up.
enum class JsonState : std::uint8_t { at_start, after_key, after_object_start, after_array_start, after_value };

/// What is wrong in a text behind `offset`, where the last good token ended.
struct JsonFault {
    std::size_t offset = 0;
    std::string message;
};

/// Finds out why a text is no JSON. `in_object` and `in_array` say what is still open around `offset`; neither: nothing is.
JsonFault describe_json_fault(std::string_view text, std::size_t offset, JsonState state, bool in_object, bool in_array);

/// The places (offset, length) of all numbers outside strings that are too large for a double, in order.
std::vector<std::pair<std::size_t, std::size_t>> find_overflows(std::string_view text);

}  // namespace ligament
