-- Opens a file, attaches the language server over stdio, waits for diagnostics, asks for a hover, and writes
-- what came back as JSON. Ends neovim whatever happens.

local patience = 20000

local function work()
  local file = vim.env.SHOOTPLAN_FILE
  vim.cmd('edit ' .. vim.fn.fnameescape(file))

  local published = false
  local client = vim.lsp.start_client({
    name = 'shootplan',
    cmd = { vim.env.SHOOTPLAN_NODE, vim.env.SHOOTPLAN_SERVER, '--stdio' },
    root_dir = vim.fn.fnamemodify(file, ':h'),
    get_language_id = function() return 'shootplan' end,
    handlers = {
      ['textDocument/publishDiagnostics'] = function(...)
        published = true
        return vim.lsp.handlers['textDocument/publishDiagnostics'](...)
      end,
    },
  })
  vim.lsp.buf_attach_client(0, client)
  assert(vim.wait(patience, function() return published end, 20), 'no diagnostics were published')

  local diagnostics = {}
  local severities = { 'error', 'warning', 'information', 'hint' }
  for _, entry in ipairs(vim.diagnostic.get(0)) do
    table.insert(diagnostics, {
      line = entry.lnum,
      character = entry.col,
      severity = severities[entry.severity],
      code = entry.user_data and entry.user_data.lsp and entry.user_data.lsp.code or '',
      message = entry.message,
    })
  end

  local hover = ''
  for number, line in ipairs(vim.api.nvim_buf_get_lines(0, 0, -1, false)) do
    local start = line:find(vim.env.SHOOTPLAN_HOVER_AT, 1, true)
    if start then
      local answers = assert(vim.lsp.buf_request_sync(0, 'textDocument/hover', {
        textDocument = vim.lsp.util.make_text_document_params(),
        position = { line = number - 1, character = vim.str_utfindex(line, start - 1) },
      }, patience))
      local answer = answers[client]
      if answer and answer.result then hover = answer.result.contents.value end
      break
    end
  end

  local report = {
    diagnostics = diagnostics,
    hover = hover,
    capabilities = vim.lsp.get_client_by_id(client).server_capabilities,
  }
  vim.fn.writefile({ vim.fn.json_encode(report) }, vim.env.SHOOTPLAN_REPORT)
end

local worked, problem = pcall(work)
if not worked then print(problem) end
vim.cmd('qall!')
