-- Drives Neovim as a person would, and writes what happened as JSON.
-- SERVER: the command line's bundle. NODE: the Node to run it with. RESULT: the file to write.
local result = {}
local fired = 0
local publish = vim.lsp.handlers['textDocument/publishDiagnostics']
local function finish(code)
  local file = io.open(os.getenv('RESULT'), 'w')
  file:write(vim.json.encode(result))
  file:close()
  vim.cmd(code == 0 and 'qall!' or 'cquit')
end
local function wait(what, condition)
  if not vim.wait(20000, condition, 20) then
    result.failed = what
    finish(1)
  end
end

vim.cmd('edit wrong-on-purpose.broom')
local buf = vim.api.nvim_get_current_buf()
local id = vim.lsp.start_client {
  name = 'broomline',
  cmd = { os.getenv('NODE'), os.getenv('SERVER'), 'serve', '--stdio' },
  root_dir = vim.fn.getcwd(),
  handlers = {
    ['textDocument/publishDiagnostics'] = function(e, r, c, cfg)
      publish(e, r, c, cfg)
      fired = fired + 1
    end,
  },
}
if not id then finish(1) end
vim.lsp.buf_attach_client(buf, id)
wait('diagnostics', function() return fired > 0 end)
result.diagnostics = vim.tbl_map(function(d) return d.code end, vim.diagnostic.get(buf))

local function ask(method, params)
  local answers = vim.lsp.buf_request_sync(0, method, params, 20000)
  local answer = answers and answers[id]
  if not answer or answer.err then
    result.failed = method .. ': ' .. vim.inspect(answer and answer.err)
    finish(1)
  end
  return answer.result
end
local function go(pattern)
  if vim.fn.search(pattern, 'w') == 0 then
    result.failed = 'no ' .. pattern
    finish(1)
  end
end

-- Hover
go([[\<crossfall]])
result.hover = ask('textDocument/hover', vim.lsp.util.make_position_params(0, 'utf-16')).contents.value

-- A fix: the misspelt property
go([[presure-limit]])
local line = vim.api.nvim_win_get_cursor(0)[1] - 1
local params = vim.lsp.util.make_range_params(0, 'utf-16')
params.context = { diagnostics = {}, only = { 'quickfix' } }
for _, action in ipairs(ask('textDocument/codeAction', params)) do
  if action.title:find('pressure%-limit', 1, false) then
    result.fix = action.title
    vim.lsp.util.apply_workspace_edit(action.edit, 'utf-16')
    break
  end
end
result.fixed = vim.api.nvim_buf_get_lines(buf, line, line + 1, false)[1]

-- Completion through Neovim's own omnifunc
vim.cmd('edit small-job.broom')
buf = vim.api.nvim_get_current_buf()
fired = 0
vim.lsp.buf_attach_client(buf, id)
wait('diagnostics of the job', function() return fired > 0 end)
go([[removes:\s*\zsRubber]])
local items = ask('textDocument/completion', vim.lsp.util.make_position_params(0, 'utf-16')).items
result.completion = vim.tbl_map(function(item) return item.label end, items)

-- Rename across files, as Neovim does it
go([[District\.\zsSprayer1]])
vim.lsp.buf.rename('BigSprayer')
wait('rename', function()
  return table.concat(vim.api.nvim_buf_get_lines(buf, 0, -1, false), '\n'):find('District.BigSprayer', 1, true) ~= nil
end)
vim.cmd('wall')

-- Layout
vim.lsp.buf.formatting_sync(nil, 20000)
vim.cmd('wall')
finish(0)
