// Which part of a call's rigs is this machine's, and how are the parts put together again?
#pragma once

#include <cstdint>
#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ligament/report.hpp"

namespace ligament {

/// The rigs at places index - 1, index - 1 + of, ... of a call. 1 of 1: all of them.
struct Shard {
    std::uint32_t index = 1, of = 1;

    bool holds(std::size_t position) const { return position % of == index - 1; }
};

/// "2/3", or nothing where it is no such pair.
std::optional<Shard> read_shard(std::string_view text);

/// What a shard says of one rig besides its report.
struct ShardEntry {
    std::size_t position = 0;
    Totals totals;                    ///< of this rig alone
    std::vector<std::string> errors;  ///< as they stand on standard error
    bool has_report = false;
};

/// What stands behind the reports of a shard: all that is needed to put reports together as one call would have written them.
struct ShardTrailer {
    Shard shard;
    std::vector<std::string> rigs;  ///< all of the call
    std::string format, fail_on;
    std::vector<ShardEntry> entries;
};

/// A shard of format "rig-shard", version 1: a JSON array of its reports, then one row on the shard. Reports of another format
/// than JSON are strings in it.
void write_shard_report(std::ostream& out, const std::string& format, const std::string& report);
void write_shard_trailer(std::ostream& out, const ShardTrailer& trailer);

/// What was written of one shard.
struct ShardFile {
    ShardTrailer trailer;
    std::vector<std::string> reports;  ///< of the entries that have one, in their order, as the format writes them
};

/// From its whole text; nothing where this is no whole shard.
std::optional<ShardFile> read_shard_file(std::string_view text);

}  // namespace ligament
