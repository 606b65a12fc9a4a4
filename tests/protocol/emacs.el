;;; What a pattern designer does in Emacs: opens a pattern, reads a finding, points at a row, mends it, renames.
;;; Run by other-editors.test.ts, which tells the server, the pattern and where to write what came of it.
(require 'package)
(package-initialize)
(require 'eglot)
(require 'flymake)
(require 'json)

(setq eglot-sync-connect 20
      eglot-autoshutdown nil
      eglot-confirm-server-initiated-edits nil)

;; As on the set-up page, with this project's own server in the place of `loopledger'.
(define-derived-mode crochet-mode text-mode "Crochet"
  (visual-line-mode))
(add-to-list 'auto-mode-alist '("\\.crochet\\'" . crochet-mode))
(add-to-list 'eglot-server-programs
             (cons 'crochet-mode (split-string (getenv "LOOPLEDGER_SERVER") "\t")))

(defvar out nil)
(defun note (key value) (push (cons key value) out))

;; At a terminal Emacs tells the server of changes as soon as nobody types; here nobody does.
(defun wait-for (holds)
  (eglot--signal-textDocument/didChange)
  (let ((end (+ (float-time) 20)))
    (while (and (not (funcall holds)) (< (float-time) end))
      (accept-process-output nil 0.1)
      (flymake-start))))

(defun findings ()
  (vconcat (mapcar (lambda (one)
                     (list (cons 'line (1- (line-number-at-pos (flymake-diagnostic-beg one))))
                           (cons 'message (flymake-diagnostic-text one))))
                   (flymake-diagnostics))))

(defun go-to (words)
  (goto-char (point-min))
  (let ((case-fold-search nil)) (search-forward words))
  (goto-char (match-beginning 0)))

(find-file (getenv "LOOPLEDGER_PATTERN"))
(apply #'eglot (eglot--guess-contact))
(flymake-mode 1)
(wait-for (lambda () (flymake-diagnostics)))
(note 'before (findings))

(defun ask (method params) (jsonrpc-request (eglot--current-server-or-lose) method params :timeout 20))

(go-to "Rnd 2")
(note 'hover (plist-get (plist-get (ask :textDocument/hover (eglot--TextDocumentPositionParams)) :contents) :value))

(go-to "inc x5")
(let* ((place (eglot--pos-to-lsp-position))
       (action (aref (ask :textDocument/codeAction
                          (list :textDocument (eglot--TextDocumentIdentifier)
                                :range (list :start place :end place)
                                :context '(:diagnostics [])))
                     0)))
  (note 'offered (plist-get action :title))
  (eglot--apply-workspace-edit
   (plist-get (if (plist-get action :edit) action (ask :codeAction/resolve action)) :edit)))
(wait-for (lambda () (null (flymake-diagnostics))))
(note 'after (findings))

(go-to "Shell")
(eglot-rename "tideling")
(eglot--signal-textDocument/didChange)
(accept-process-output nil 0.5)
(note 'text (vconcat (split-string (buffer-substring-no-properties (point-min) (point-max)) "\n")))
(note 'renamed (findings))

(with-temp-file (getenv "LOOPLEDGER_RESULT") (insert (json-encode out)))
(set-buffer-modified-p nil)
(kill-emacs 0)
