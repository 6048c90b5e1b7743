using Athwart.Jobs.Shape;
using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Tests.Shape;

public sealed class TreatmentFilesTests
{
    private const string Gate = """
        {
          "kind": "athwart-treatment",
          "version": 1,
          "name": "Gate",
          "note": "Lock gate from the towpath.",
          "steps": [
            {
              "step": "swap",
              "note": "plugged the wrong way round"
            },
            {
              "step": "trim",
              "roles": "side",
              "gainDecibels": -1.25
            },
            {
              "step": "invert",
              "roles": "both"
            }
          ],
          "decode": {
            "sideLevelDecibels": -3
          }
        }

        """;

    [Fact]
    public void ATreatment_ReadsAndWritesTheSameText_StepsInOrder()
    {
        var treatment = TreatmentFiles.FromJson(Gate);
        Assert.Equal(["swap", "trim", "invert"], treatment.Steps.Select(s => s.Kind.Name), StringComparer.Ordinal);
        Assert.Equal(new Trim(PairRoles.Side, -1.25), treatment.Steps[1].Settings);
        Assert.Equal(Gate.ReplaceLineEndings("\n"), TreatmentFiles.ToJson(treatment));
    }

    [Fact]
    public void Steps_SayWhatTheyDoInWords() =>
        Assert.Equal(["swap", "trim: side, gain −1.25 dB", "invert: both"], TreatmentFiles.FromJson(Gate).Steps.Select(s => s.ToString()), StringComparer.Ordinal);

    public static TheoryData<string, string, string> Wrong => new()
    {
        { "\"trim\"", "\"polish\"", "there is no step 'polish'" },
        { "\"gainDecibels\": -1.25", "\"gainDecibels\": 1e9", "from -100 to 100 dB" },
        { "\"gainDecibels\": -1.25", "\"gainDecibel\": 1", "gainDecibel" },
        { "\"roles\": \"side\",", "", "roles" },
        { "\"roles\": \"side\"", "\"roles\": \"left\"", "roles" },
        { "\"roles\": \"side\"", "\"roles\": 2", "roles" },
        { "\"version\": 1", "\"version\": 2", "version 2" },
        { "\"athwart-treatment\"", "\"athwart-recipe\"", "no treatment" },
        { "\"sideLevelDecibels\": -3", "\"sideLevelDecibels\": -3, \"noSide\": true", "exactly one way" },
        { "\"sideLevelDecibels\": -3", "", "exactly one way" },
        { "\"sideLevelDecibels\": -3", "\"sideLevelDecibels\": 400", "between -100 and 60 dB" },
        { "\"name\": \"Gate\"", "\"name\": \" \"", "has a name" },
        { "\"note\": \"Lock", "\"remark\": \"Lock", "remark" },
        { "\"step\": \"swap\",", "", "'step' names its kind" },
    };

    // Issue 5, section 5: unknown steps are refused with a clear message; the file, the place, the rule and the remedy.
    [Theory]
    [MemberData(nameof(Wrong))]
    public void WhatBreaksARule_IsRefused_NamingFileRuleAndRemedy(string right, string wrong, string named)
    {
        Assert.Contains(right, Gate, StringComparison.Ordinal);
        var error = Assert.Throws<JobException>(() => TreatmentFiles.FromJson(Gate.Replace(right, wrong, StringComparison.Ordinal), "gate.json"));
        Assert.StartsWith("gate.json", error.Message, StringComparison.Ordinal);
        Assert.Contains(named, error.Message, StringComparison.Ordinal);
        Assert.NotEmpty(error.Remedy);
    }

    [Fact]
    public void AnUnknownStep_IsNamedWithItsPlace()
    {
        var error = Assert.Throws<JobException>(() => TreatmentFiles.FromJson(Gate.Replace("\"trim\"", "\"polish\"", StringComparison.Ordinal), "gate.json"));
        Assert.Contains("steps[1]", error.Message, StringComparison.Ordinal);
        Assert.Contains("line 15", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void SilenceOfARole_IsWrittenAndRead()
    {
        var treatment = new Treatment { Name = "mid alone", Steps = [TreatmentStep.Of(new Trim(PairRoles.Side, double.NegativeInfinity))] };
        Assert.Equal(treatment.Steps[0].Settings, TreatmentFiles.FromJson(TreatmentFiles.ToJson(treatment)).Steps[0].Settings);
        Assert.Equal("trim: side, gain −∞ dB", treatment.Steps[0].ToString());
    }
}
