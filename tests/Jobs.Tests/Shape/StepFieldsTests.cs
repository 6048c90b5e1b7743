using Athwart.Jobs.Shape;
using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Tests.Shape;

/// <summary>Steps as forms: every kind can be begun, read field by field, and written back through the checks of a file.</summary>
public sealed class StepFieldsTests
{
    private const int Rate = 48_000;

    public static TheoryData<string> Kinds => [.. StepKinds.All.Select(k => k.Name)];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void EveryKind_CanBeBegun_AndSurvivesItsOwnFields(string kind)
    {
        var step = StepStarts.Of(StepKinds.Find(kind)!, 96_000, Rate);

        Assert.Equal(kind, step.Kind.Name);
        foreach (var field in StepFields.Of(step))
            Assert.Equal(step, StepFields.With(step, field.Name, field.Text));
        if (!step.Kind.NeedsRig && step.Settings is not Speed)
            Assert.NotNull(step.Kind.Stage(step.Settings, new(Rate, 1)));
    }

    [Fact]
    public void AField_IsNamedInWords_WithItsUnitAndChoices()
    {
        var fields = StepFields.Of(TreatmentStep.Of(new LowCut(PairRoles.Side, 60, 12)));

        Assert.Equal(["roles", "cutoff", "slope"], fields.Select(f => f.Words), StringComparer.Ordinal);
        Assert.Equal(["", "Hz", "dB/octave"], fields.Select(f => f.Unit), StringComparer.Ordinal);
        Assert.Equal(["side", "60", "12"], fields.Select(f => f.Text), StringComparer.Ordinal);
        Assert.Equal(["mid", "side", "both"], fields[0].Choices, StringComparer.Ordinal);
    }

    [Fact]
    public void AChangedField_ChangesTheStep()
    {
        var step = TreatmentStep.Of(new LowCut(PairRoles.Side, 60, 12), "barge engines");

        Assert.Equal(TreatmentStep.Of(new LowCut(PairRoles.Side, 82.5, 12), "barge engines"), StepFields.With(step, "cutoffHertz", "82.5"));
        Assert.Equal(new LowCut(PairRoles.Both, 60, 12), StepFields.With(step, "roles", "both").Settings);
        Assert.Equal(new Trim(PairRoles.Side, double.NegativeInfinity), StepFields.With(TreatmentStep.Of(new Trim(PairRoles.Side, -3)), "gainDecibels", "-inf").Settings);
    }

    [Fact]
    public void Points_AreWrittenAsNumbersWithBlanksBetween()
    {
        var step = TreatmentStep.Of(new WidthOverTime([new(0, -6), new(48_000, 0)]));

        Assert.Equal("0 -6; 48000 0", StepFields.Of(step).Single().Text);
        var changed = (WidthOverTime)StepFields.With(step, "points", "0 -12; 24000 -3; 48000 -inf").Settings;
        Assert.Equal([new(0, -12), new(24_000, -3), new(48_000, double.NegativeInfinity)], changed.Points);
    }

    [Theory]
    [InlineData("cutoffHertz", "9")]
    [InlineData("cutoffHertz", "loud")]
    [InlineData("cutoffHertz", "")]
    [InlineData("slopeDecibelsPerOctave", "7")]
    [InlineData("slopeDecibelsPerOctave", "12.5")]
    [InlineData("roles", "none")]
    [InlineData("colour", "1")]
    public void WhatAStepIsNotMadeFor_IsRefusedInWords(string field, string text) =>
        Assert.NotEmpty(Assert.Throws<JobException>(() => StepFields.With(TreatmentStep.Of(new LowCut(PairRoles.Side, 60, 12)), field, text)).Message);
}
