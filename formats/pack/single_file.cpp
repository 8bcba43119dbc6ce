#include "formats/pack/single_file.h"

#include <algorithm>
#include <map>
#include <optional>

#include "core/base/text.h"

namespace outbye {
namespace {

// No address but the page's own data: and blob:. Its own scripts and styles stand in the page; WebAssembly is compiled
// from bytes in the page.
constexpr const char* policy =
    "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; script-src 'unsafe-inline' "
    "'wasm-unsafe-eval' blob: data:; worker-src blob: data:; style-src 'unsafe-inline'; img-src data: blob:; "
    "media-src data: blob:; font-src data:; connect-src data: blob:; form-action 'none'; base-uri 'none'\">";

struct Tag {
  std::string name;  // in small letters
  std::map<std::string, std::string> attributes;
  std::size_t from{};  // of '<'
  std::size_t to{};    // behind '>'

  std::string value(const std::string& attribute) const {
    const auto found = attributes.find(attribute);
    return found == attributes.end() ? "" : found->second;
  }
};

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f'; }

// The next start tag from `at` on; comments and end tags are passed over.
std::optional<Tag> next_tag(const std::string& html, std::size_t at) {
  while (true) {
    at = html.find('<', at);
    if (at == std::string::npos || at + 1 >= html.size()) return std::nullopt;
    if (html.compare(at, 4, "<!--") == 0) {
      at = html.find("-->", at + 4);
      if (at == std::string::npos) return std::nullopt;
      continue;
    }
    const char first = html[at + 1];
    if ((first >= 'a' && first <= 'z') || (first >= 'A' && first <= 'Z')) break;
    ++at;
  }
  Tag tag;
  tag.from = at++;
  const auto word = [&](const char* ends) {
    const std::size_t from = at;
    while (at < html.size() && !is_space(html[at]) && std::string_view(ends).find(html[at]) == std::string_view::npos)
      ++at;
    return html.substr(from, at - from);
  };
  tag.name = in_lower_case(word("/>"));
  while (at < html.size() && html[at] != '>') {
    if (is_space(html[at]) || html[at] == '/') {
      ++at;
      continue;
    }
    const std::string name = in_lower_case(word("/>="));
    std::string value;
    while (at < html.size() && is_space(html[at])) ++at;
    if (at < html.size() && html[at] == '=') {
      ++at;
      while (at < html.size() && is_space(html[at])) ++at;
      if (at < html.size() && (html[at] == '"' || html[at] == '\'')) {
        const char quote = html[at++];
        const std::size_t end = std::min(html.find(quote, at), html.size());
        value = html.substr(at, end - at);
        at = std::min(end + 1, html.size());
      } else {
        value = word(">");
      }
    }
    if (name.empty()) ++at;
    tag.attributes[name] = value;
  }
  tag.to = std::min(at + 1, html.size());
  return tag;
}

void replace_all(std::string& text, const std::string& what, const std::string& with) {
  for (std::size_t at = 0; (at = text.find(what, at)) != std::string::npos; at += with.size()) {
    text.replace(at, what.size(), with);
  }
}

bool is_elsewhere(const std::string& address) {
  return address.rfind("data:", 0) == 0 || address.rfind("#", 0) == 0 || address.rfind("//", 0) == 0 ||
         address.find("://") != std::string::npos;
}

// What an address of a page or of a style in `folder` names, without "./", "../", query and fragment.
std::string named(std::string address, const std::string& folder) {
  address = address.substr(0, address.find_first_of("?#"));
  std::string path = address.rfind('/', 0) == 0 ? address.substr(1) : folder + address;
  std::vector<std::string> parts;
  std::size_t at = 0;
  while (at <= path.size()) {
    const std::size_t end = std::min(path.find('/', at), path.size());
    const std::string part = path.substr(at, end - at);
    if (part == "..") {
      if (!parts.empty()) parts.pop_back();
    } else if (!part.empty() && part != ".") {
      parts.push_back(part);
    }
    at = end + 1;
  }
  std::string name;
  for (const auto& part : parts) name += (name.empty() ? "" : "/") + part;
  return name;
}

class Inliner {
 public:
  explicit Inliner(const std::vector<PackedFile>& files) : files_(files) {}

  Result<const PackedFile*> file(const std::string& address, const std::string& folder = "") const {
    const std::string name = named(address, folder);
    for (const PackedFile& one : files_) {
      if (one.name == name) return &one;
    }
    return bad_input("index.html",
                     "names '" + address + "', which the page's folder does not have; ./run web builds it");
  }

  Result<std::string> script(const Tag& tag) const {
    const auto found = file(tag.value("src"));
    if (!found) return tl::make_unexpected(found.error());
    const std::string& text = (*found)->bytes;
    for (const char* import :
         {"import\"./", "import\"../", "from\"./", "from\"../", "import './", "from './", "import \"./", "from \"./"}) {
      if (text.find(import) != std::string::npos) {
        return bad_input("index.html",
                         "its script '" + (*found)->name +
                             "' imports another, so it cannot stand in one file; ./run web builds it whole");
      }
    }
    const std::string type = tag.value("type");
    return "<script" + (type.empty() ? "" : " type=\"" + type + "\"") + ">" + script_safe(text);
  }

  // With what its url()s name as data.
  Result<std::string> style(const Tag& tag) const {
    const auto found = file(tag.value("href"));
    if (!found) return tl::make_unexpected(found.error());
    const std::string& name = (*found)->name;
    const std::string folder = name.substr(0, name.rfind('/') == std::string::npos ? 0 : name.rfind('/') + 1);
    std::string css = (*found)->bytes;
    std::size_t at = 0;
    while ((at = css.find("url(", at)) != std::string::npos) {
      at += 4;
      const std::size_t end = css.find(')', at);
      if (end == std::string::npos) break;
      std::string address(trimmed(css.substr(at, end - at)));
      if (address.size() >= 2 && (address.front() == '"' || address.front() == '\'')) {
        address = address.substr(1, address.size() - 2);
      }
      if (is_elsewhere(address)) continue;
      const auto picture = file(address, folder);
      if (!picture) return tl::make_unexpected(picture.error());
      css.replace(at, end - at, data_address(type_by_name((*picture)->name), (*picture)->bytes));
    }
    replace_all(css, "</", "<\\/");
    return "<style>" + css + "</style>";
  }

 private:
  const std::vector<PackedFile>& files_;
};

bool has_word(const std::string& text, std::string_view word) {
  const std::string spaced = " " + in_lower_case(text) + " ";
  return spaced.find(" " + std::string(word) + " ") != std::string::npos;
}

// What stands in the place of a tag; nothing: it stays as it is.
Result<std::optional<std::string>> in_place_of(const Tag& tag, const Inliner& inliner) {
  const std::string rel = tag.value("rel"), href = tag.value("href"), src = tag.value("src");
  const auto some = [](std::string text) { return std::optional<std::string>(std::move(text)); };
  if (tag.name == "meta" && same_name(tag.value("http-equiv"), "content-security-policy")) return some("");
  if (tag.name == "link" && has_word(rel, "stylesheet") && !is_elsewhere(href)) {
    auto style = inliner.style(tag);
    if (!style) return tl::make_unexpected(style.error());
    return some(std::move(*style));
  }
  if (tag.name == "link" && (has_word(rel, "manifest") || has_word(rel, "modulepreload") || has_word(rel, "preload") ||
                             has_word(rel, "apple-touch-icon"))) {
    return some("");
  }
  if (tag.name == "link" && has_word(rel, "icon") && !is_elsewhere(href)) {
    const auto icon = inliner.file(href);
    if (!icon) return tl::make_unexpected(icon.error());
    return some("<link rel=\"icon\" href=\"" + data_address(type_by_name((*icon)->name), (*icon)->bytes) + "\">");
  }
  if (tag.name == "script" && !src.empty() && !is_elsewhere(src)) {
    auto script = inliner.script(tag);
    if (!script) return tl::make_unexpected(script.error());
    return some(std::move(*script));
  }
  return std::optional<std::string>();
}

std::string data_element(const char* type, const char* id, const std::string& text) {
  return std::string("<script type=\"") + type + "\" id=\"" + id + "\">" + text + "</script>\n";
}

}  // namespace

std::string script_safe(std::string script) {
  replace_all(script, "<!--", "\\x3C!--");
  for (std::size_t at = 0; (at = script.find("</", at)) != std::string::npos; at += 2) {
    if (same_name(script.substr(at + 2, 6), "script")) script.replace(at, 1, "\\x3C");
  }
  return script;
}

std::string json_safe(std::string json) {
  replace_all(json, "<", "\\u003c");
  return json;
}

Result<std::string> single_file(const std::vector<PackedFile>& page_files, const SingleFileData& data) {
  const Inliner inliner(page_files);
  const auto index = inliner.file("index.html");
  if (!index)
    return tl::make_unexpected(Problem{Problem::Kind::bad_input, "index.html", "is not in the page's folder"});
  const std::string& html = (*index)->bytes;
  std::string out, elements;
  std::size_t done = 0;
  bool has_policy = false;
  std::size_t end_of_body = std::string::npos;
  for (std::size_t at = 0; const auto tag = next_tag(html, at);) {
    at = tag->to;
    auto with = in_place_of(*tag, inliner);
    if (!with) return tl::make_unexpected(with.error());
    if (*with) {
      out += html.substr(done, tag->from - done) + **with;
      done = tag->to;
    }
    if (tag->name == "head") {
      out += html.substr(done, tag->to - done) + policy;
      done = tag->to;
      has_policy = true;
    }
    // What stands inside is no markup.
    if (tag->name == "script" || tag->name == "style") {
      const std::size_t end = html.find("</" + tag->name, at);
      if (end != std::string::npos) at = end;
    }
  }
  out += html.substr(done);
  if (!has_policy) return bad_input("index.html", "has no <head>; ./run web builds the page");
  elements += data_element("application/json", "outbye-page", json_safe(data.page));
  elements += data_element("application/json", "outbye-ride", json_safe(data.ride));
  elements += data_element("text/plain", "outbye-engine", script_safe(data.engine));
  elements += data_element("application/octet-stream;base64", "outbye-wasm", base64(data.engine_wasm));
  end_of_body = out.rfind("</body>");
  if (end_of_body == std::string::npos) return bad_input("index.html", "has no </body>; ./run web builds the page");
  out.insert(end_of_body, elements);
  return out;
}

}  // namespace outbye
