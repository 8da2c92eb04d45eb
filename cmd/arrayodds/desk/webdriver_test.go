package desk_test

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// driven is a browser that does what it is told by the commands of WebDriver (W3C).
type driven interface {
	open(url string) error
	// run runs the body of an async function in the page and returns its text.
	run(body string) (string, error)
}

// script wraps the body of an async function as WebDriver wants it: its last argument is
// called with the outcome.
func script(body string) string {
	return `const done = arguments[arguments.length - 1];
(async () => { ` + body + ` })().then((x) => done("ok " + x), (e) => done("failed " + e));`
}

func outcome(text string) (string, error) {
	if value, ok := strings.CutPrefix(text, "ok "); ok {
		return value, nil
	}
	return "", fmt.Errorf("the script %s", text)
}

// freePort returns a port that nobody listens on.
func freePort(t *testing.T) int {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port
}

// begin starts a program that ends with the test.
func begin(t *testing.T, cmd *exec.Cmd) {
	t.Helper()
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		cmd.Process.Kill()
		cmd.Wait() // it was killed
	})
}

// connected waits until somebody listens on a port.
func connected(t *testing.T, port int) net.Conn {
	t.Helper()
	for deadline := time.Now().Add(time.Minute); time.Now().Before(deadline); {
		if c, err := net.Dial("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(port))); err == nil {
			return c
		}
		<-time.After(50 * time.Millisecond)
	}
	t.Fatal("the browser does not listen")
	return nil
}

// firefox speaks Marionette, the protocol in which Firefox takes WebDriver's commands:
// messages of JSON, each behind its length.
type firefox struct {
	conn net.Conn
	in   *bufio.Reader
	last int
}

func startFirefox(t *testing.T, path string) driven {
	profile := t.TempDir()
	port := freePort(t)
	prefs := fmt.Sprintf("user_pref(\"marionette.port\", %d);\nuser_pref(\"app.update.enabled\", false);\nuser_pref(\"datareporting.policy.dataSubmissionEnabled\", false);\nuser_pref(\"network.captive-portal-service.enabled\", false);\n", port)
	if err := os.WriteFile(filepath.Join(profile, "user.js"), []byte(prefs), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(path, "--headless", "--marionette", "--no-remote", "--profile", profile, "about:blank")
	cmd.Env = append(os.Environ(), "HOME="+profile, "MOZ_DISABLE_CONTENT_SANDBOX=1")
	begin(t, cmd)
	f := &firefox{conn: connected(t, port)}
	t.Cleanup(func() { f.conn.Close() })
	f.in = bufio.NewReader(f.conn)
	if _, err := f.message(); err != nil { // its greeting
		t.Fatal(err)
	}
	if _, err := f.command("WebDriver:NewSession", map[string]any{"capabilities": map[string]any{"alwaysMatch": map[string]any{"timeouts": map[string]int{"script": 240_000}}}}); err != nil {
		t.Fatal(err)
	}
	return f
}

func (f *firefox) message() (json.RawMessage, error) {
	length, err := f.in.ReadString(':')
	if err != nil {
		return nil, err
	}
	n, err := strconv.Atoi(strings.TrimSuffix(length, ":"))
	if err != nil {
		return nil, err
	}
	text := make([]byte, n)
	_, err = io.ReadFull(f.in, text)
	return text, err
}

func (f *firefox) command(name string, args any) (json.RawMessage, error) {
	f.last++
	text, err := json.Marshal([]any{0, f.last, name, args})
	if err != nil {
		return nil, err
	}
	if _, err := fmt.Fprintf(f.conn, "%d:%s", len(text), text); err != nil {
		return nil, err
	}
	text, err = f.message()
	if err != nil {
		return nil, err
	}
	var answer [4]json.RawMessage // 1, its number, the error, the result
	if err := json.Unmarshal(text, &answer); err != nil {
		return nil, err
	}
	if string(answer[2]) != "null" {
		return nil, fmt.Errorf("%s: %s", name, answer[2])
	}
	return answer[3], nil
}

func (f *firefox) open(url string) error {
	_, err := f.command("WebDriver:Navigate", map[string]string{"url": url})
	return err
}

// run runs the function in a script element of the page: Marionette's own scripts run
// beside the page, and do not see what its scripts declare.
func (f *firefox) run(body string) (string, error) {
	inner, err := json.Marshal("(async () => { " + body + " })().then((x) => document.documentElement.setAttribute('data-outcome', 'ok ' + x), (e) => document.documentElement.setAttribute('data-outcome', 'failed ' + e))")
	if err != nil {
		return "", err
	}
	text, err := f.command("WebDriver:ExecuteAsyncScript", map[string]any{"args": []any{}, "script": `const done = arguments[arguments.length - 1];
const root = document.documentElement, element = document.createElement("script");
root.removeAttribute("data-outcome");
new MutationObserver(() => done(root.getAttribute("data-outcome"))).observe(root, { attributes: true, attributeFilter: ["data-outcome"] });
element.textContent = ` + string(inner) + `;
document.head.append(element);`})
	if err != nil {
		return "", err
	}
	var value struct{ Value string }
	if err := json.Unmarshal(text, &value); err != nil {
		return "", err
	}
	return outcome(value.Value)
}

// webkit speaks WebDriver over HTTP, to the driver that comes with WebKitGTK.
type webkit struct{ session string }

func startWebKit(t *testing.T, driver, xvfb string) driven {
	display := fmt.Sprintf(":%d", 90+os.Getpid()%900)
	begin(t, exec.Command(xvfb, display, "-screen", "0", "1280x900x24"))
	port := freePort(t)
	cmd := exec.Command(driver, "--port="+strconv.Itoa(port))
	home := t.TempDir()
	cmd.Env = append(os.Environ(), "DISPLAY="+display, "HOME="+home, "WEBKIT_DISABLE_COMPOSITING_MODE=1", "WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS=1", "LIBGL_ALWAYS_SOFTWARE=1")
	begin(t, cmd)
	connected(t, port).Close()
	w := &webkit{"http://127.0.0.1:" + strconv.Itoa(port) + "/session"}
	text, err := w.command("", map[string]any{"capabilities": map[string]any{"alwaysMatch": map[string]any{"timeouts": map[string]int{"script": 240_000}}}})
	if err != nil {
		t.Fatal(err)
	}
	var made struct{ SessionID string }
	if err := json.Unmarshal(text, &made); err != nil {
		t.Fatal(err)
	}
	w.session += "/" + made.SessionID
	t.Cleanup(func() {
		if gone, err := http.NewRequest(http.MethodDelete, w.session, nil); err == nil {
			if r, err := http.DefaultClient.Do(gone); err == nil {
				r.Body.Close()
			}
		}
	})
	return w
}

func (w *webkit) command(path string, args any) (json.RawMessage, error) {
	text, err := json.Marshal(args)
	if err != nil {
		return nil, err
	}
	r, err := http.Post(w.session+path, "application/json", bytes.NewReader(text))
	if err != nil {
		return nil, err
	}
	defer r.Body.Close()
	var answer struct{ Value json.RawMessage }
	if err := json.NewDecoder(r.Body).Decode(&answer); err != nil {
		return nil, err
	}
	if r.StatusCode != http.StatusOK {
		return nil, fmt.Errorf("%s: %s", path, answer.Value)
	}
	return answer.Value, nil
}

func (w *webkit) open(url string) error {
	_, err := w.command("/url", map[string]string{"url": url})
	return err
}

func (w *webkit) run(body string) (string, error) {
	text, err := w.command("/execute/async", map[string]any{"script": script(body), "args": []any{}})
	if err != nil {
		return "", err
	}
	var value string
	if err := json.Unmarshal(text, &value); err != nil {
		return "", err
	}
	return outcome(value)
}
