using Athwart.Microphones.Hearing;

namespace Athwart.Microphones.Tests.Hearing;

public static class CautionsTests
{
    public static TheoryData<SubjectHazards> Hazards { get; } = [.. Enum.GetValues<SubjectHazards>().Where(hazard => hazard != SubjectHazards.None)];

    [Fact]
    public static void LocalLawAndLicensedPeople_ComeFirst_WhateverTheSubject()
        => Assert.Equal(
            "Local law, site rules and the people licensed to run the place come first; where they differ from this sheet, follow them.",
            Cautions.For(SubjectHazards.None)[0].Text);

    [Theory]
    [MemberData(nameof(Hazards))]
    public static void EachHazard_HasItsCaution(SubjectHazards hazard)
        => Assert.Single(Cautions.For(hazard), caution => caution.Hazard == hazard);

    [Fact]
    public static void LoudLevels_AreCautionedWithoutBeingAsked()
    {
        Assert.DoesNotContain(Cautions.For(SubjectHazards.Water, 84.9), caution => caution.Hazard == SubjectHazards.LoudSource);
        Assert.Contains(Cautions.For(SubjectHazards.Water, 85), caution => caution.Hazard == SubjectHazards.LoudSource);
        var loud = Cautions.For(SubjectHazards.Water, 100).Where(caution => caution.Hazard == SubjectHazards.LoudSource).ToList();
        Assert.Equal(2, loud.Count);
        // Source: NIOSH, 15 minutes at 100 dBA, as docs/safety.md says.
        Assert.Equal("At 100 dBA the recommended limit for a day is 15 minutes (NIOSH).", loud[1].Text);
    }

    [Fact]
    public static void Impulses_AreCautionedByTheirPeak()
        => Assert.Contains(Cautions.For(SubjectHazards.None, null, 141), caution => caution.Text.StartsWith("Peaks of 141 dB can harm at once", StringComparison.Ordinal));

    [Fact]
    public static void LoudHeadphones_AreCautionedByTheLevelSet()
    {
        var cautions = Cautions.For(SubjectHazards.None, headphonesDecibelsA: 94);
        Assert.Contains(cautions, caution => caution is { Hazard: SubjectHazards.Headphones, Text: "At 94 dBA the recommended limit for a day is 60 minutes (NIOSH)." });
        Assert.Contains("no hearing protection", Cautions.For(SubjectHazards.LoudSource)[2].Text, StringComparison.Ordinal);
    }

    [Fact]
    public static void AboveTheCeiling_NoTimeIsNamed()
        => Assert.Contains(Cautions.For(SubjectHazards.None, 120), caution => caution.Text.Contains("no time is recommended", StringComparison.Ordinal));
}
