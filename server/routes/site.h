// All that is served: the API and the page.
#pragma once

#include <cstdint>
#include <string>

#include "server/http/guard.h"
#include "server/http/static_files.h"
#include "server/routes/router.h"

namespace outbye {

// What is referred to must outlive it.
Site make_site(Backstage& backstage, StaticFiles& page, const OwnNames& own);

}  // namespace outbye
