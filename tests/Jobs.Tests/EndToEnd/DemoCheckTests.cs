using Athwart.Jobs.Roles;
using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.Tests.EndToEnd;

/// <summary>What the check finds on the demo card is what was put there.</summary>
[Collection(DemoDayGroup.Name)]
public sealed class DemoCheckTests(DemoDay day)
{
    [Fact]
    public void EightTakes_AreFound_WithTheirLengthsRatesAndWords()
    {
        Assert.Equal(day.Report.Card.Takes.Select(t => t.Name), day.Report.Check.Takes.Select(t => t.Take.Name), StringComparer.Ordinal);
        Assert.Equal(8, day.Report.Check.Takes.Count);
        Assert.Empty(day.Report.Check.Refused);
        foreach (var (truth, check) in day.Report.Card.Takes.Zip(day.Report.Check.Takes))
        {
            Assert.Equal((truth.FrameCount.Value, truth.SampleRateHertz, truth.Roles.Count), (check.Take.FrameCount, check.Take.SampleRateHertz, check.Take.ChannelCount));
            Assert.Equal(string.Equals(truth.Word, "f32", StringComparison.Ordinal), !check.Take.Format.IsInteger);
        }
    }

    [Theory]
    [InlineData(2, JoinKind.Split)]
    [InlineData(6, JoinKind.MonoPair)]
    public void TakesInTwoFiles_AreJoined_AndTheEvidenceIsTheFileSet(int number, JoinKind join)
    {
        var take = day.Check(number).Take;
        Assert.Equal(join, take.Join);
        Assert.Equal(2, take.Parts.Count);
        Assert.Contains(take.Evidence, e => e.Contains("FILE_SET", StringComparison.Ordinal));
    }

    [Fact]
    public void AllOtherTakes_AreOneFile() =>
        Assert.All([1, 3, 4, 5, 7, 8], n => Assert.Equal(JoinKind.Single, day.Check(n).Take.Join));

    [Fact]
    public void RolesOfEveryTake_AreTheTruth_AndComeFromTheTrackFunctions()
    {
        foreach (var truth in day.Report.Card.Takes)
        {
            var roles = day.Report.Check.Takes.Single(t => string.Equals(t.Take.Name, truth.Name, StringComparison.Ordinal)).Roles;
            Assert.Equal(ChannelRole.Mid, truth.Roles[roles.MidChannel]);
            Assert.Equal(ChannelRole.Side, truth.Roles[roles.SideChannel!.Value]);
            Assert.Equal(RoleEvidence.TrackFunction, roles.Evidence);
        }

        Assert.Equal(1, day.Check(5).Roles.MidChannel);
    }

    // Issue 2, section 3: the side level the recorder used, to 0.05 dB on a noiseless case.
    [Fact]
    public void TheRecordersOwnLeftAndRight_AreRecognised_AtMinus3Decibels()
    {
        var match = day.Check(8).RecordedDecode;
        Assert.NotNull(match);
        Assert.InRange(match.SideLevel.Value, -3.05, -2.95);
        Assert.True(match.Residual.Value < -90, $"residual {match.Residual.Value:0.0} dB");
        Assert.Contains(day.Check(8).Findings, f => string.Equals(f.Kind, "recorded-decode", StringComparison.Ordinal));
        Assert.All(new[] { 1, 2, 3, 4, 5, 6, 7 }, n => Assert.Null(day.Check(n).RecordedDecode));
    }

    [Fact]
    public void TheTakeOfThePowerFailure_IsReadAsFarAsWholeFramesGo_AndSaysSo()
    {
        Assert.Equal(398_561, day.Check(7).Take.FrameCount);
        Assert.Contains(day.Check(7).Findings, f => string.Equals(f.Kind, "header-not-finished", StringComparison.Ordinal) && f.Remedy.Length > 0);
    }

    [Fact]
    public void TheFullScaleRun_IsFoundInTheMid_WhereItWasPlanted()
    {
        var planted = day.Truth(1).Faults.Single(f => string.Equals(f.Kind, "full-scale-run", StringComparison.Ordinal));
        var found = day.Check(1).Findings.Where(f => string.Equals(f.Kind, "full-scale-runs", StringComparison.Ordinal)).ToList();

        // A run is three samples or more in a row; single ones at the edges of what was planted are none.
        Assert.NotEmpty(found);
        foreach (var range in found.Select(f => f.Range!.Value))
        {
            Assert.InRange(range.From.Value, planted.Range!.Value.From.Value, planted.Range.Value.To.Value - 3);
            Assert.InRange(range.To.Value, planted.Range.Value.From.Value + 3, planted.Range.Value.To.Value);
        }

        Assert.All(new[] { 2, 3, 5, 6, 7, 8 }, n => Assert.DoesNotContain(day.Check(n).Findings, f => string.Equals(f.Kind, "full-scale-runs", StringComparison.Ordinal)));
    }

    [Fact]
    public void TheDcOffset_IsFoundInTheSide_AtItsSize()
    {
        var planted = day.Truth(4).Faults.Single(f => string.Equals(f.Kind, "dc-offset", StringComparison.Ordinal));
        Assert.Contains(day.Check(4).Findings, f => string.Equals(f.Kind, "dc-offset", StringComparison.Ordinal));
        Assert.InRange(Math.Abs(day.Check(4).Measures.Side.DcOffset), planted.Size * 0.95, planted.Size * 1.05);
        Assert.InRange(Math.Abs(day.Check(4).Measures.Mid.DcOffset), 0, planted.Size / 20);
    }

    [Fact]
    public void TheCard_IsTakenInWhole_AndTheDeliveryIsSound()
    {
        Assert.True(day.Report.TakeIn.Complete);
        Assert.True(day.Report.Verify.IsSound);
        Assert.Equal(day.Report.Delivery.Manifest.Files.Count, day.Report.Verify.FilesSound);
    }

    [Fact]
    public void CutsFromMarkers_BeginAndEndWhereTheMarkersDo()
    {
        foreach (var truth in day.Report.Card.Takes)
        {
            var cuts = day.Report.Cuts.Single(c => string.Equals(c.Take, truth.Name, StringComparison.Ordinal)).Effects;
            var marked = truth.Events.Where(e => e.Marked).OrderBy(e => e.Range.From.Value).ToList();
            if (marked.Count == 0)
            {
                Assert.Equal((0, truth.FrameCount.Value), (Assert.Single(cuts).Range.From.Value, cuts[0].Range.To.Value));
                continue;
            }

            Assert.Equal(marked.Select(e => e.Range.From.Value), cuts.Select(c => c.Range.From.Value));
            // A marker's length on the card is as far as its file goes; the event's is the truth in one file.
            if (truth.Files.Count == 1)
                Assert.Equal(marked.Select(e => e.Range.To.Value), cuts.Select(c => c.Range.To.Value));
        }
    }
}
