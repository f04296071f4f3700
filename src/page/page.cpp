#include "ligament/page.hpp"

#include "assets.hpp"
#include "data.hpp"
#include "html.hpp"

namespace ligament {

namespace {

/// All pages but the first wait in templates, which a browser reads but does not lay out.
std::string templates_of(const Drawing& drawing) {
    std::string text;
    for (std::size_t p = 1; p < drawing.pages.size(); ++p)
        text += "<template id=\"page-" + std::to_string(p) + "\">" + drawing.pages[p].svg + "</template>\n";
    return text;
}

}  // namespace

void write_page(std::ostream& out, const PageContents& contents) {
    const Report& report = contents.report;
    const std::string name = html_text(report.rig.name.empty() ? report.source : report.rig.name);
    const std::string policy = page_policy(page_script_hash()), drawing_rules = drawing_style(), data = page_data(contents);
    const std::string definitions = drawing_definitions(), templates = templates_of(contents.drawing);
    write_filled(out, page_markup(),
                 {{"policy", policy},
                  {"name", name},
                  {"style", page_style()},
                  {"drawing_style", drawing_rules},
                  {"definitions", definitions},
                  {"first_page", contents.drawing.pages.empty() ? "" : std::string_view(contents.drawing.pages.front().svg)},
                  {"templates", templates},
                  {"data", data},
                  {"script", page_script()}});
}

}  // namespace ligament
