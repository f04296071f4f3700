// How wide is a text, and how is a name written so that it is harmless? Text metrics of our own, the same whatever fonts there
// are.
#pragma once

#include <string>
#include <string_view>

namespace ligament {

/// The code point at `at`, which moves past it. Bytes that are no UTF-8 give U+FFFD, one byte at a time.
char32_t next_code_point(std::string_view text, std::size_t& at);

/// Width in em: 1 for East Asian Wide and Fullwidth (UAX #11, ranges from memory), 0 for combining marks and controls, else 0.6,
/// the advance of the usual monospaced fonts.
double advance_of(char32_t code_point);

/// Width of one line of text at a font size.
double width_of(std::string_view text, double size);

/// A name as it is drawn: what XML 1.0 cannot hold becomes U+FFFD, and so do bidirectional embeddings, overrides and isolates,
/// which would reach beyond the name. Tab, line feed and carriage return become their visible symbols.
std::string drawable(std::string_view name);

/// `text` itself when it fits, else its ends around an ellipsis. A combining mark stays with what it is on.
std::string cut_in_middle(std::string_view text, double size, double width);

/// Between first-strong isolates (UAX #9) when anything but ASCII is in it, so that right-to-left text does not reorder its
/// surroundings. For texts that are not laid out by CSS.
std::string isolated(std::string_view text);

/// `&`, `<`, `>` and both quotes as entities.
std::string escaped(std::string_view text);

}  // namespace ligament
