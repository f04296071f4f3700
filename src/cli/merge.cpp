// `ligament merge`: what do the shards of a call say together?
#include <algorithm>
#include <iostream>
#include <memory>
#include <optional>

#include "commands.hpp"
#include "ligament/shard.hpp"
#include "ligament/whole_file.hpp"
#include "report_stream.hpp"
#include "status.hpp"
#include "terminal.hpp"

namespace ligament::cli {

Run add_merge(CLI::App& app);

namespace {

struct Options {
    std::vector<std::string> shards;
    std::string output = "-", colour = "auto";
};

/// What is wrong with shards as parts of one call; nothing where they are.
std::vector<std::string> faults_of(const Options& options, const std::vector<ShardFile>& files) {
    std::vector<std::string> faults;
    const ShardTrailer& first = files.front().trailer;
    std::vector<std::size_t> given(first.shard.of, 0);
    for (std::size_t i = 0; i < files.size(); ++i) {
        const ShardTrailer& trailer = files[i].trailer;
        const std::string& path = options.shards[i];
        if (trailer.rigs != first.rigs || trailer.shard.of != first.shard.of) {
            faults.push_back(path + ": is a part of another call than " + options.shards.front());
            continue;
        }
        if (trailer.format != first.format || trailer.fail_on != first.fail_on)
            faults.push_back(path + ": --format or --fail-on is another than that of " + options.shards.front());
        if (++given[trailer.shard.index - 1] == 2)
            faults.push_back(path + ": shard " + std::to_string(trailer.shard.index) + " is given twice");
    }
    for (std::size_t i = 0; i < given.size(); ++i)
        if (given[i] == 0)
            faults.push_back("shard " + std::to_string(i + 1) + " of " + std::to_string(given.size()) + " is missing");
    return faults;
}

struct Part {
    const ShardEntry* entry;
    const std::string* report;  // null: none
};

std::vector<Part> in_order(const std::vector<ShardFile>& files) {
    std::vector<Part> parts;
    for (const ShardFile& file : files) {
        const std::string* report = file.reports.data();
        for (const ShardEntry& entry : file.trailer.entries) parts.push_back({&entry, entry.has_report ? report++ : nullptr});
    }
    std::sort(parts.begin(), parts.end(), [](const Part& a, const Part& b) { return a.entry->position < b.entry->position; });
    return parts;
}

ShardFile load_shard(const std::string& path) {
    std::string text;
    if (const std::string reason = read_whole_file(path, std::size_t{1} << 34U, text); !reason.empty())
        throw Unusable(path + ": " + reason);
    std::optional<ShardFile> file = read_shard_file(text);
    if (!file) throw Unusable(path + ": is no whole shard, as `ligament check --shard` writes it");
    return *std::move(file);
}

int merge(const Options& options) {
    std::vector<ShardFile> files;
    for (const std::string& path : options.shards) files.push_back(load_shard(path));
    if (const std::vector<std::string> faults = faults_of(options, files); !faults.empty()) {
        for (const std::string& fault : faults) std::cerr << "ligament: " << printable(fault) << '\n';
        throw Unusable("");
    }
    const ShardTrailer& trailer = files.front().trailer;
    const std::vector<Part> parts = in_order(files);
    if (parts.size() != trailer.rigs.size()) throw Unusable("shards do not hold all rigs of their call");
    ReportStream reports(format_named(trailer.format), options.output, options.colour, trailer.fail_on, trailer.rigs.size() > 1);
    Totals totals;
    for (const Part& part : parts) {
        if (part.report != nullptr) reports.add([&](std::ostream& out, const TextStyle&) { out << *part.report; });
        if (!part.entry->errors.empty()) reports.flush();
        for (const std::string& error : part.entry->errors) std::cerr << printable(error) << '\n';
        totals.add(part.entry->totals);
    }
    reports.close(totals);
    return status_of(totals, trailer.fail_on);
}

}  // namespace

Run add_merge(CLI::App& app) {
    auto options = std::make_shared<Options>();
    app.add_option("SHARD", options->shards, "what `ligament check --shard` wrote: all shards of one call, in any order")
        ->required()
        ->type_name("");
    app.add_option("-o,--output", options->output, "write to this file instead of standard output")->type_name("FILE");
    add_colour_option(app, options->colour);
    app.footer(
        "One report comes out, equal to that of the call without --shard, and so does the exit status.\n\n"
        "Example:\n  ligament check --shard 1/2 --format json *.rig.json -o 1.json\n"
        "  ligament check --shard 2/2 --format json *.rig.json -o 2.json\n  ligament merge 1.json 2.json -o report.json");
    return [options] { return merge(*options); };
}

}  // namespace ligament::cli
