package batch

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	batchv1 "k8s.io/api/batch/v1"
	"sigs.k8s.io/json"
	"sigs.k8s.io/yaml"
)

// jobOf decodes a manifest strictly, as the API's server does: by its own types, and by
// the case of letters too.
func jobOf(text string) (job batchv1.Job, err error) {
	data, err := yaml.YAMLToJSONStrict([]byte(text))
	if err != nil {
		return job, err
	}
	unknown, err := json.UnmarshalStrict(data, &job)
	return job, errors.Join(append(unknown, err)...)
}

// The manifest is a Job of the Kubernetes API (k8s.io/api), field by field, and its rules
// hold that no type says: those of an Indexed Job stand in the doc of batchv1.JobSpec.
func TestKubernetesJob(t *testing.T) {
	t.Parallel()
	job, err := jobOf(Kubernetes)
	if err != nil {
		t.Fatal(err)
	}
	spec := job.Spec
	if job.APIVersion != batchv1.SchemeGroupVersion.String() || job.Kind != "Job" || spec.CompletionMode == nil || *spec.CompletionMode != batchv1.IndexedCompletion {
		t.Errorf("it is no Indexed Job: %+v", job)
	}
	pod := spec.Template.Spec
	if spec.Completions == nil || spec.BackoffLimitPerIndex == nil || pod.RestartPolicy != "Never" { // which the last one asks for
		t.Fatalf("%+v", spec)
	}
	part := pod.Containers[0]
	if got := fmt.Sprint(*spec.Completions); part.Env[0].Name != "PARTS" || part.Env[0].Value != got {
		t.Errorf("%s completions, and %+v", got, part.Env)
	}
	for _, m := range part.VolumeMounts {
		there := false
		for _, v := range pod.Volumes {
			there = there || v.Name == m.Name
		}
		if !there {
			t.Errorf("no volume %q", m.Name)
		}
	}
	if n := len(pod.Containers); n != 1 || len(part.Args) != 1 || !strings.Contains(part.Args[0], `"$part/$PARTS"`) {
		t.Errorf("%d containers, of which the first runs %q", n, part.Args)
	}
	if _, err := jobOf(strings.Replace(Kubernetes, "completionMode:", "completionmode:", 1)); err == nil {
		t.Error("a misspelt field is taken")
	}
}
