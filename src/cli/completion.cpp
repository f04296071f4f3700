// `ligament completion`: how does a shell complete a call?
#include <algorithm>
#include <memory>

#include "build_app.hpp"
#include "output.hpp"
#include "shells.hpp"
#include "status.hpp"

namespace ligament::cli {

Run add_completion(CLI::App& app);

namespace {

struct Shell {
    std::string_view name;
    void (*write)(std::ostream& out, const ProgramWords& program);
};

constexpr std::array<Shell, 3> shells{
    {{"bash", write_bash_completion}, {"zsh", write_zsh_completion}, {"fish", write_fish_completion}}};

int complete(std::string_view name) {
    const auto shell = std::find_if(shells.begin(), shells.end(), [&](const Shell& one) { return one.name == name; });
    const Program program;
    Output output;
    shell->write(output.stream(), words_of(program.app));
    output.commit();
    return fine;
}

}  // namespace

Run add_completion(CLI::App& app) {
    auto name = std::make_shared<std::string>();
    std::vector<std::string> names;
    for (const Shell& shell : shells) names.emplace_back(shell.name);
    app.add_option("SHELL", *name, "for which shell")->required()->check(CLI::IsMember(names))->type_name("");
    app.footer(
        "Examples:\n  source <(ligament completion bash)\n  ligament completion zsh > ~/.zfunc/_ligament\n"
        "  ligament completion fish > ~/.config/fish/completions/ligament.fish");
    return [name] { return complete(*name); };
}

}  // namespace ligament::cli
