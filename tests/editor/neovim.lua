-- Opens a plan in Neovim's own language client, takes code actions, saves, and writes what it saw as JSON.
-- Environment: PLAN (a file), SERVER (the command, as JSON), SEEN (where to write).

local plan, seen = os.getenv("PLAN"), { steps = {} }
local PATIENCE = 60000 -- milliseconds

local function diagnostics()
  local found = {}
  for _, one in ipairs(vim.diagnostic.get(0)) do
    table.insert(found, { line = one.lnum + 1, column = one.col, code = one.code, severity = one.severity })
  end
  return found
end

local function finish(problem)
  seen.problem = problem
  local file = io.open(os.getenv("SEEN"), "w")
  file:write(vim.json.encode(seen))
  file:close()
  vim.cmd("qall!")
end

local function act(words)
  -- The client's own command; of what it offers, the action with these words is chosen.
  local line = vim.fn.search(words.at, "w")
  if line == 0 then
    return finish("nothing stands at " .. words.at)
  end
  local title
  vim.ui.select = function(items, _, chosen)
    title = items[1][2].title
    chosen(items[1], 1)
  end
  local before = #vim.diagnostic.get(0)
  vim.lsp.buf.code_action()
  local done = vim.wait(PATIENCE, function()
    return title ~= nil and #vim.diagnostic.get(0) < before
  end, 20)
  table.insert(seen.steps, { at = words.at, title = title or "", done = done, left = diagnostics() })
end

vim.cmd("edit " .. vim.fn.fnameescape(plan))
local client = vim.lsp.start_client({
  name = "precover",
  cmd = vim.json.decode(os.getenv("SERVER")),
  root_dir = vim.fn.getcwd(),
})
if client == nil then
  return finish("the client did not start")
end
vim.lsp.buf_attach_client(0, client)
if not vim.wait(PATIENCE, function() return #vim.diagnostic.get(0) > 0 end, 20) then
  return finish("no diagnostics came")
end
seen.first = diagnostics()
act({ at = [[\<weather-resistant: \zsfalse]] })
act({ at = [[cover: \zsclosed]] })
vim.cmd("write")
vim.wait(500)
seen.last = diagnostics()
local hover = vim.lsp.buf_request_sync(0, "textDocument/hover", vim.lsp.util.make_position_params(), PATIENCE)
seen.hover = hover and hover[client] and hover[client].result and hover[client].result.contents.value or ""
vim.lsp.stop_client(client)
vim.wait(PATIENCE, function() return vim.lsp.client_is_stopped(client) end, 20)
finish(nil)
