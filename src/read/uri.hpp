// What does the URI of a buffer mean, and may it be read?
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace ligament {

/// Bytes or a path, or else the reason why there are none.
struct FromUri {
    std::optional<std::string> value;
    std::string reason;
};

/// Whether a URI carries its data in itself (RFC 2397).
bool is_data_uri(std::string_view uri);

/// The bytes of a data: URI, in base64 (RFC 4648, section 4) or percent-encoded.
FromUri decode_data_uri(std::string_view uri);

/// The regular file that a relative URI (RFC 3986, section 4.2) means in a folder. Nothing leads out of it: no scheme, no
/// absolute path, no "..", also encoded, and no symbolic link whose target lies elsewhere. Nothing is fetched.
FromUri find_file(std::string_view uri, const std::string& folder);

}  // namespace ligament
