// What does the URI of a buffer stand for: data inside of it, or a file in the folder of the glTF file?
#pragma once

#include <string>
#include <string_view>

namespace ligament {

/// The URI has the scheme `data`, in any case of letters.
bool is_data_uri(std::string_view uri);

/// Decodes a data URI (RFC 2397; base64 by RFC 4648, section 4, with padding) into `data`. Gives why it cannot be decoded, or an
/// empty text. Linear.
std::string decode_data_uri(std::string_view uri, std::string& data);

/// Finds the regular file that a relative URI (RFC 3986) means in a folder or below it, as an absolute `path` without symbolic
/// links. Gives why there is none, or an empty text. Nothing leads out of the folder, nothing is fetched.
std::string find_file_of_uri(std::string_view uri, const std::string& folder, std::string& path);

}  // namespace ligament
