// `ligament check`: what is wrong with these rigs?
#ifdef __linux__
#include <malloc.h>
#endif

#include <algorithm>
#include <condition_variable>
#include <filesystem>
#include <iostream>
#include <memory>
#include <mutex>
#include <sstream>
#include <thread>

#include "baseline_file.hpp"
#include "check_rig.hpp"
#include "commands.hpp"
#include "cut_options.hpp"
#include "ligament/shard.hpp"
#include "numbers.hpp"
#include "progress.hpp"
#include "report_stream.hpp"
#include "state_option.hpp"
#include "status.hpp"
#include "stop.hpp"
#include "terminal.hpp"

namespace ligament::cli {

Run add_check(CLI::App& app);

namespace {

/// What one rig adds to the call: told as text, since it may have been made beside others.
struct Told {
    Totals totals;
    std::vector<std::string> errors;
    ReportStream::Write write;  ///< none: no report
    KnownFindings found;
};

/// A call that is under way.
struct Call {
    const CheckOptions& options;
    const CheckSetting& setting;
    Shard shard;
    std::vector<std::size_t> positions;  ///< the rigs that are this call's
    const ReportFormat& format;

    bool is_sharded() const { return !options.shard.empty(); }
    bool is_enclosed() const { return options.rigs.size() > 1 || is_sharded() || format.has_envelope; }
};

std::vector<std::string> errors_of(const std::string& path, const CheckOutcome& outcome) {
    std::vector<std::string> errors;
    for (const Fault& fault : outcome.faults)
        errors.push_back(place_text(path, fault.place) + ": " + printable(fault.message) + pointer_text(fault.pointer));
    if (!outcome.unusable.empty()) errors.push_back("ligament: " + printable(outcome.unusable));
    return errors;
}

bool writes_something(const ReportFormat& format, const Unreadable& unreadable) {
    std::ostringstream out;
    format.write_unreadable(out, unreadable, {});
    return out.tellp() > 0;
}

Told tell(const Call& call, std::size_t position) {
    const std::string& path = call.options.rigs[position];
    auto outcome = std::make_shared<CheckOutcome>(check_rig(call.setting, position));
    Told told;
    told.errors = errors_of(path, *outcome);
    if (!outcome->checked) {
        told.totals.unreadable = 1;
        if (!outcome->unusable.empty()) outcome->faults.push_back({{0, 0}, outcome->unusable});
        if (call.is_enclosed() && writes_something(call.format, {path, outcome->faults}))
            told.write = [&call, path, outcome](std::ostream& out, const TextStyle& style) {
                call.format.write_unreadable(out, {path, outcome->faults}, style);
            };
        return told;
    }
    told.totals.add(report_of(path, *outcome->checked));
    told.found = outcome->checked->found;
    told.write = [&call, path, outcome](std::ostream& out, const TextStyle& style) {
        call.format.write(out, report_of(path, *outcome->checked), style);
    };
    return told;
}

/// Makes a report now, so that what it is made of need not be kept.
void write_ahead(Told& told, const TextStyle& style) {
    if (!told.write) return;
    std::ostringstream out;
    told.write(out, style);
    told.write = [text = std::move(out).str()](std::ostream& to, const TextStyle&) { to << text; };
}

/// Checks rigs in several threads and hands them over in order. No thread is more than a few rigs ahead, so that reports do not
/// pile up behind a slow one.
class Threads {
  public:
    Threads(const Call& call, const TextStyle& style) : call_(call), style_(style), told_(call.positions.size()) {
        const std::size_t count = std::min<std::size_t>(call.options.jobs, call.positions.size());
#ifdef M_ARENA_MAX
        // A pool of memory for each: rigs side by side would wait for one that they share (see large_blocks.cpp).
        mallopt(M_ARENA_MAX, static_cast<int>(count) + 1);
#endif
        const StopsHeld held;  // in them: signals are for the thread that writes
        for (std::size_t i = 0; i < count; ++i) threads_.emplace_back([this] { work(); });
    }
    ~Threads() {
        {
            const std::lock_guard lock(mutex_);
            next_ = told_.size();
        }
        changed_.notify_all();
    }

    Told take(std::size_t at) {
        std::unique_lock lock(mutex_);
        changed_.wait(lock, [&] { return told_[at] || failure_; });
        if (failure_) std::rethrow_exception(failure_);
        taken_ = at + 1;
        changed_.notify_all();
        Told told = *std::move(told_[at]);
        told_[at].reset();
        return told;
    }

  private:
    void work() {
        std::unique_lock lock(mutex_);
        for (;;) {
            changed_.wait(lock, [&] { return next_ >= told_.size() || next_ < taken_ + 4 * std::size_t{call_.options.jobs}; });
            if (next_ >= told_.size()) return;
            const std::size_t at = next_++;
            lock.unlock();
            Told told;
            std::exception_ptr failure;
            try {
                told = tell(call_, call_.positions[at]);
                write_ahead(told, style_);
            } catch (...) {
                failure = std::current_exception();
            }
            lock.lock();
            if (failure) {
                failure_ = failure;
                next_ = told_.size();
            } else {
                told_[at] = std::move(told);
            }
            changed_.notify_all();
        }
    }

    const Call& call_;
    TextStyle style_;
    std::mutex mutex_;
    std::condition_variable changed_;
    std::vector<std::optional<Told>> told_;
    std::size_t next_ = 0, taken_ = 0;
    std::exception_ptr failure_;
    std::vector<std::jthread> threads_;  // last: they end before what they use
};

/// Of the last rig of a call nothing is taken apart: the process ends, and to give a million small blocks back one by one would
/// take as long as writing the report.
void leave_standing(Told told) {
    [[maybe_unused]] static const Told* last = nullptr;
    last = new Told(std::move(told));
}

/// Goes through the rigs of the call in order. What is written ahead, where several are checked at a time, is in the style that
/// `style()` gives.
template <class Style, class Take>
void go_through(const Call& call, Style style, Take take) {
    Progress progress(call.positions.size());
    std::optional<Threads> threads;
    if (call.options.jobs > 1 && call.positions.size() > 1) threads.emplace(call, style());
    for (std::size_t at = 0; at < call.positions.size(); ++at) {
        progress.show(at);
        Told told = threads ? threads->take(at) : tell(call, call.positions[at]);
        progress.clear();
        take(call.positions[at], told);
        if (at + 1 == call.positions.size()) leave_standing(std::move(told));
    }
}

void keep_baseline(const CheckOptions& options, std::vector<KnownFindings> found, const Totals& totals) {
    if (totals.unreadable > 0) throw Unusable(options.write_baseline + ": not written, since not all rigs could be read");
    Baseline baseline;
    // Rigs that this call does not look at stay in it.
    if (std::filesystem::exists(options.write_baseline)) baseline = load_baseline(options.write_baseline);
    for (KnownFindings& known : found) baseline.put(std::move(known));
    Output output(options.write_baseline);
    output.stream() << write_baseline(baseline);
    output.commit();
}

int write_reports(const Call& call) {
    const CheckOptions& options = call.options;
    ReportStream reports(call.format, options.output, options.colour, options.fail_on, options.rigs.size() > 1);
    Totals totals;
    std::vector<KnownFindings> found;
    const auto style = [&]() -> const TextStyle& { return reports.style(); };
    go_through(call, style, [&](std::size_t, Told& told) {
        if (told.write) reports.add(told.write);
        if (!told.errors.empty()) reports.flush();
        for (const std::string& error : told.errors) std::cerr << error << '\n';
        totals.add(told.totals);
        found.push_back(std::move(told.found));
    });
    reports.close(totals);
    if (options.write_baseline.empty()) return status_of(totals, options.fail_on);
    keep_baseline(options, std::move(found), totals);
    return fine;
}

int write_shard(const Call& call) {
    const CheckOptions& options = call.options;
    Output output(options.output);
    TextStyle style = style_for(output, options.colour);
    style.failing = severity_named(options.fail_on);
    ShardTrailer trailer{call.shard, options.rigs, options.format, options.fail_on, {}};
    Totals totals;
    output.stream() << "[\n";
    const auto style_of_shard = [&]() -> const TextStyle& { return style; };
    go_through(call, style_of_shard, [&](std::size_t position, Told& told) {
        for (const std::string& error : told.errors) std::cerr << error << '\n';
        trailer.entries.push_back({position, told.totals, told.errors, static_cast<bool>(told.write)});
        totals.add(told.totals);
        if (!told.write) return;
        std::ostringstream report;
        told.write(report, style);
        write_shard_report(output.stream(), options.format, std::move(report).str());
        output.stream() << ",\n";
    });
    write_shard_trailer(output.stream(), trailer);
    output.stream() << "]\n";
    output.commit();
    return status_of(totals, options.fail_on);
}

std::vector<Rules> rules_of(const CheckOptions& options) {
    RulesOfCall rules(options.input);
    std::vector<Rules> of_rigs;
    for (const std::string& path : options.rigs) of_rigs.push_back(rules.of(path));
    return of_rigs;
}

Shard shard_of(const CheckOptions& options) {
    if (options.shard.empty()) return {};
    if (!options.write_baseline.empty())
        throw Unusable("--write-baseline: one call writes a baseline, and a shard is a part of one");
    const std::optional<Shard> shard = read_shard(options.shard);
    if (!shard) throw Unusable("--shard: wanted I/N, shard I of N, such as 2/3, found \"" + options.shard + '"');
    return *shard;
}

int check(const CheckOptions& options) {
    if (std::count(options.rigs.begin(), options.rigs.end(), "-") > 1) throw Unusable("standard input (-) can be read once only");
    read_cut_costs(options.cut_costs);  // before rigs are read: what is wrong with the call goes first
    const Shard shard = shard_of(options);
    CheckSetting setting{options, rules_of(options), {}, today()};
    if (!options.baseline.empty()) setting.baseline = load_baseline(options.baseline);
    Call call{options, setting, shard, {}, format_named(options.format)};
    for (std::size_t position = 0; position < options.rigs.size(); ++position)
        if (shard.holds(position)) call.positions.push_back(position);
    if (call.is_sharded()) return write_shard(call);
    return write_reports(call);
}

void add_report_options(CLI::App& app, CheckOptions& options) {
    std::vector<std::string> formats;
    for (const ReportFormat& format : all_report_formats()) formats.emplace_back(format.name);
    options.format = formats.front();
    app.add_option("--format", options.format, "text and markdown for people, the others for programs")
        ->check(CLI::IsMember(formats))
        ->capture_default_str()
        ->type_name("FORMAT");
    app.add_option("--fail-on", options.fail_on, "mildest severity that gives status 1: note, warning or error")
        ->check(CLI::IsMember({"note", "warning", "error"}))
        ->capture_default_str()
        ->type_name("SEVERITY");
}

}  // namespace

Run add_check(CLI::App& app) {
    auto options = std::make_shared<CheckOptions>();
    add_rig(app, options->rigs, options->input);
    add_report_options(app, *options);
    add_state_option(app, options->state);
    add_cut_costs(app, options->cut_costs);
    add_circuits(app, options->circuits);
    app.add_option("--baseline", options->baseline, "do not count what this file holds, and say what of it is gone")
        ->type_name("FILE");
    app.add_option("--write-baseline", options->write_baseline,
                   "accept what is found: write it to this file, where rigs that are not of this call stay as they are")
        ->type_name("FILE");
    app.add_option("-j,--jobs", options->jobs, "check so many rigs at a time; the output stays the same")
        ->check(workers())
        ->capture_default_str()
        ->type_name("N");
    app.add_option("--shard", options->shard, "check shard I of N of these rigs, for `ligament merge`")->type_name("I/N");
    app.add_option("-o,--output", options->output, "write to this file instead of standard output")->type_name("FILE");
    add_colour_option(app, options->colour);
    app.footer(
        "Examples:\n  ligament check heron.rig.json\n  ligament check --format json --fail-on warning *.rig.json -o report.json\n"
        "  ligament check --baseline accepted.json --jobs 4 *.rig.json");
    return [options] { return check(*options); };
}

}  // namespace ligament::cli
