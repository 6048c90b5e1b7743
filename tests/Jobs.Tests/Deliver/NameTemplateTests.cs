using Athwart.Jobs.Deliver.Naming;

namespace Athwart.Jobs.Tests.Deliver;

public sealed class NameTemplateTests
{
    private static readonly Dictionary<string, string> Values = new(StringComparer.Ordinal)
    {
        ["date"] = "2026-05-14",
        ["take"] = "T01",
        ["effect"] = "gate boom",
        ["kind"] = "stereo",
        ["index"] = "7",
        ["scene"] = "",
    };

    [Theory]
    [InlineData(NameTemplate.Default, "2026-05-14_T01_gate boom_stereo")]
    [InlineData("{index:000} {effect}", "007 gate boom")]
    [InlineData("{{{effect}}}", "{gate boom}")]
    [InlineData("{scene}_{effect}", "gate boom")]
    [InlineData("{take}_{scene}_{effect}", "T01_gate boom")]
    public void TokensAreFilledAndAbsentValuesLeaveNoDoubleSeparators(string template, string expected) =>
        Assert.Equal(expected, NameTemplate.Parse(template).Fill(Values));

    [Theory]
    [InlineData("{effekt}", "no token", "character 1")]
    [InlineData("a{effect", "not closed", "character 2")]
    [InlineData("a}b", "without an opening", "character 2")]
    [InlineData("{index:x}", "only be zeros", "character 1")]
    public void AWrongTemplateIsRefusedWithThePlaceAndTheTokens(string template, string rule, string place)
    {
        var refusal = Assert.Throws<JobException>(() => NameTemplate.Parse(template));

        Assert.Equal(JobErrorKind.WrongUse, refusal.Kind);
        Assert.Contains(rule, refusal.Message, StringComparison.Ordinal);
        Assert.Contains(place, refusal.Message, StringComparison.Ordinal);
        Assert.Contains("{effect}", refusal.Remedy, StringComparison.Ordinal);
    }
}
