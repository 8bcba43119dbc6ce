#include "formats/paper/pdf_marks.h"

namespace outbye {
namespace {

// The figures behind `name`, from `from` on: "153" of "/Root 153 0 R". Empty when there are none.
std::string number_behind(const std::string& pdf, std::string_view name, std::size_t from) {
  std::size_t at = pdf.find(name, from);
  if (at == std::string::npos) return "";
  at = pdf.find_first_not_of(" \r\n", at + name.size());
  if (at == std::string::npos) return "";
  return pdf.substr(at, pdf.find_first_not_of("0123456789", at) - at);
}

std::string ten_figures(std::size_t offset) {
  const std::string text = std::to_string(offset);
  return std::string(text.size() < 10 ? 10 - text.size() : 0, '0') + text;
}

}  // namespace

std::string marked_pdf(std::string pdf, std::string_view language) {
  const std::size_t trailer = pdf.rfind("trailer");
  if (trailer == std::string::npos) return pdf;
  const std::string root = number_behind(pdf, "/Root", trailer), info = number_behind(pdf, "/Info", trailer),
                    size = number_behind(pdf, "/Size", trailer), table = number_behind(pdf, "startxref", trailer);
  const std::string head = root + " 0 obj\n";
  const std::size_t object = pdf.rfind("\n" + head);
  if (root.empty() || info.empty() || size.empty() || table.empty() || object == std::string::npos) return pdf;
  const std::size_t begin = object + 1 + head.size(), end = pdf.find("endobj", begin);
  if (end == std::string::npos) return pdf;
  std::string catalogue = pdf.substr(begin, end - begin);
  const std::size_t close = catalogue.rfind(">>");
  if (close == std::string::npos || catalogue.find("/StructTreeRoot") == std::string::npos) return pdf;
  const bool is_marked = catalogue.find("/MarkInfo") != std::string::npos;
  catalogue.insert(close, std::string(is_marked ? "" : "   /MarkInfo << /Marked true >>\n") + "   /Lang (" +
                              std::string(language) + ")\n   /ViewerPreferences << /DisplayDocTitle true >>\n");
  if (pdf.back() != '\n') pdf += '\n';
  const std::size_t at = pdf.size();
  pdf += head + catalogue + "endobj\n";
  const std::size_t cross_references = pdf.size();
  pdf += "xref\n" + root + " 1\n" + ten_figures(at) + " 00000 n \ntrailer\n<< /Size " + size + "\n   /Root " + root +
         " 0 R\n   /Info " + info + " 0 R\n   /Prev " + table + "\n>>\nstartxref\n" + std::to_string(cross_references) +
         "\n%%EOF\n";
  return pdf;
}

}  // namespace outbye
