;;; Drives Emacs with Eglot as a person would, and writes what happened as JSON. -*- lexical-binding: t -*-
;; SERVER: the command line's bundle. NODE: the Node to run it with. RESULT: the file to write.
(require 'eglot)
(require 'cl-lib)
(require 'json)

(define-derived-mode broomline-mode prog-mode "Broomline")
(add-to-list 'auto-mode-alist '("\\.broom\\'" . broomline-mode))
(add-to-list 'eglot-server-programs
             `(broomline-mode . (,(getenv "NODE") ,(getenv "SERVER") "serve" "--stdio")))
(setq eglot-sync-connect 20
      eglot-confirm-server-initiated-edits nil
      eglot-send-changes-idle-time 0
      make-backup-files nil
      ;; A folder without version control is a project of its own here.
      project-find-functions (list (lambda (_) (cons 'transient default-directory))))
(defvar here (file-name-as-directory (expand-file-name default-directory)))
(setq project-find-functions (list (lambda (_) (cons 'transient here))))
(defvar result nil)
(defun note (key value) (push (cons key value) result))
(defun finish (code)
  (with-temp-file (getenv "RESULT") (insert (json-encode result)))
  (kill-emacs code))
(defun wait-for (what condition)
  (with-timeout (30 (note 'failed what) (finish 1))
    (while (not (funcall condition)) (accept-process-output nil 0.05))))
(defun go-to (pattern)
  (goto-char (point-min))
  (unless (re-search-forward pattern nil t) (note 'failed (concat "no " pattern)) (finish 1)))
(defun ask (method params) (jsonrpc-request (eglot--current-server-or-lose) method params :timeout 20))

(condition-case problem
    (progn
      (find-file (expand-file-name "wrong-on-purpose.broom" here))
      (call-interactively #'eglot)
      (unless (bound-and-true-p flymake-mode) (flymake-mode 1))
      (flymake-start)
      (wait-for "diagnostics" (lambda () (flymake-start) (flymake-diagnostics)))
      (note 'diagnostics (vconcat (mapcar #'flymake-diagnostic-text (flymake-diagnostics))))
      ;; Hover
      (go-to "crossfall")
      (backward-char 3)
      (note 'hover (plist-get (plist-get (ask :textDocument/hover (eglot--TextDocumentPositionParams)) :contents) :value))
      ;; A fix
      (go-to "presure-limit")
      (backward-char 3)
      (let* ((actions (ask :textDocument/codeAction
                           (list :textDocument (eglot--TextDocumentIdentifier)
                                 :range (list :start (eglot--pos-to-lsp-position) :end (eglot--pos-to-lsp-position))
                                 :context '(:diagnostics [] :only ["quickfix"]))))
             (action (cl-find-if (lambda (each) (string-match-p "pressure-limit" (plist-get each :title))) actions)))
        (note 'fix (plist-get action :title))
        (eglot--apply-workspace-edit (plist-get action :edit)))
      (note 'fixed (buffer-substring-no-properties (line-beginning-position) (line-end-position)))
      ;; Completion, as Eglot gives it to Emacs
      (find-file (expand-file-name "small-job.broom" here))
      (eglot--maybe-activate-editing-mode)
      (go-to "removes: *")
      (let ((found (eglot-completion-at-point)))
        (note 'completion (vconcat (all-completions "" (nth 2 found)))))
      ;; Rename across files
      (go-to "District\\.Sprayer1")
      (backward-char 2)
      (cl-letf (((symbol-function 'y-or-n-p) (lambda (&rest _) t)))
        (eglot-rename "BigSprayer"))
      (eglot-format-buffer)
      (dolist (buffer (buffer-list))
        (with-current-buffer buffer (when (and buffer-file-name (buffer-modified-p)) (save-buffer))))
      (finish 0))
  (error (note 'failed (error-message-string problem)) (finish 1)))
