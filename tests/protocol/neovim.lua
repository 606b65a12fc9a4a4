-- What a pattern designer does in Neovim: opens a pattern, reads a finding, points at a row, mends it, renames.
-- Run by other-editors.test.ts, which tells the server, the pattern and where to write what came of it.
local env = vim.env
vim.cmd("edit " .. env.LOOPLEDGER_PATTERN)
local id = vim.lsp.start_client({
  name = "loopledger",
  cmd = vim.split(env.LOOPLEDGER_SERVER, "\t"),
  root_dir = vim.fn.getcwd(),
})
vim.lsp.buf_attach_client(0, id)
local uri = vim.uri_from_bufnr(0)
local encoding = vim.lsp.get_client_by_id(id).offset_encoding

local function ask(method, params)
  params.textDocument = { uri = uri }
  local answers = vim.lsp.buf_request_sync(0, method, params, 20000)
  local answer = answers and answers[id] or {}
  if answer.error or answer.err then
    error(method .. ": " .. vim.inspect(answer))
  end
  return answer.result
end

local function findings()
  return vim.tbl_map(function(one)
    return { line = one.lnum, column = one.col, code = one.code, message = one.message }
  end, vim.diagnostic.get(0))
end

-- Where some words are first found, as the protocol counts.
local function place(words)
  for line, text in ipairs(vim.api.nvim_buf_get_lines(0, 0, -1, false)) do
    local column = text:find(words, 1, true)
    if column then
      return { line = line - 1, character = vim.str_utfindex(text, column - 1) }
    end
  end
end

local function apply(edit)
  vim.lsp.util.apply_workspace_edit(edit, encoding)
end

local out = { encoding = encoding }
vim.wait(20000, function() return #vim.diagnostic.get(0) > 0 end)
out.before = findings()

out.hover = ask("textDocument/hover", { position = place("Rnd 2") }).contents.value

local slip = place("inc x5")
local actions = ask("textDocument/codeAction", {
  range = { start = slip, ["end"] = slip },
  context = { diagnostics = {} },
})
out.offered = actions[1].title
local action = actions[1].edit and actions[1] or vim.lsp.get_client_by_id(id).request_sync("codeAction/resolve", actions[1], 20000, 0).result
apply(action.edit)
vim.wait(20000, function() return #vim.diagnostic.get(0) == 0 end)
out.after = findings()

apply(ask("textDocument/rename", { position = place("Shell"), newName = "tideling" }))
out.text = vim.api.nvim_buf_get_lines(0, 0, -1, false)
vim.wait(500, function() return #vim.diagnostic.get(0) > 0 end)
out.renamed = findings()

vim.fn.writefile({ vim.fn.json_encode(out) }, env.LOOPLEDGER_RESULT)
vim.cmd("qall!")
