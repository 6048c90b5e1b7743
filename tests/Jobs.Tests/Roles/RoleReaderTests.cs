using Athwart.Jobs.Roles;
using Athwart.Recordings;

namespace Athwart.Jobs.Tests.Roles;

public sealed class RoleReaderTests
{
    [Fact]
    public void TrackFunctionsDecideBeforeNamesAndSession()
    {
        var roles = Decide([Track("Mid", "S-MID_SIDE"), Track("Side", "M-MID_SIDE")], session: new(1, 2, null));

        Assert.Equal((1, 0, RoleEvidence.TrackFunction), (roles.MidChannel, roles.SideChannel, roles.Evidence));
        Assert.Contains("channel 2 'M-MID_SIDE' is mid", roles.Explanation, StringComparison.Ordinal);
    }

    // Source: a stored copy of the iXML function dictionary has stray blanks (docs/sources.md#ixml).
    [Fact]
    public void AFunctionWithAStrayBlankStillCounts() =>
        Assert.Equal(RoleEvidence.TrackFunction, Decide([Track("", " M-MID_SIDE "), Track("", "S-MID_SIDE ")]).Evidence);

    [Theory]
    [InlineData("Mid", "Side")]
    [InlineData("M", "S")]
    [InlineData("lock mid", "lock side")]
    [InlineData("mid", "Track 2")]
    public void TrackNamesDecideWhereFunctionsSayNothing(string first, string second)
    {
        var roles = Decide([Track(first, ""), Track(second, "")], session: new(2, 1, null));

        Assert.Equal((0, 1, RoleEvidence.TrackName), (roles.MidChannel, roles.SideChannel, roles.Evidence));
    }

    [Fact]
    public void TheSessionDecidesWhereFilesSayNothing()
    {
        var roles = Decide([Track("", ""), Track("Tr2", "")], session: new(2, 1, null));

        Assert.Equal((1, 0, RoleEvidence.SessionSetting), (roles.MidChannel, roles.SideChannel, roles.Evidence));
    }

    [Fact]
    public void WhatIsSaidOfTheTakeDecidesOverEverything()
    {
        var roles = Decide([Track("", "M-MID_SIDE"), Track("", "S-MID_SIDE")], take: new(2, 1, true));

        Assert.Equal((1, 0, true, RoleEvidence.TakeSetting), (roles.MidChannel, roles.SideChannel, roles.SideInverted, roles.Evidence));
    }

    // Common practice, no source: the mid goes to the first input.
    [Fact]
    public void WithNothingSaidTheFirstChannelIsMid()
    {
        var roles = Decide([Track("", ""), Track("", "")]);

        Assert.Equal((0, 1, RoleEvidence.ChannelOrder), (roles.MidChannel, roles.SideChannel, roles.Evidence));
        Assert.False(roles.SideInverted);
    }

    [Fact]
    public void PolaritySetForTheSessionHoldsWhereverTheChannelsCameFrom() =>
        Assert.True(Decide([Track("", "M-MID_SIDE"), Track("", "S-MID_SIDE")], session: new(null, null, true)).SideInverted);

    [Fact]
    public void PolaritySetForTheTakeOverridesTheSession() =>
        Assert.False(Decide([Track("", ""), Track("", "")], take: new(null, null, false), session: new(null, null, true)).SideInverted);

    [Fact]
    public void FourTracksHoldTheRecordersOwnLeftAndRightBesides()
    {
        var roles = Decide([Track("", "LEFT"), Track("", "RIGHT"), Track("", "M-MID_SIDE"), Track("", "S-MID_SIDE")]);

        Assert.Equal((2, 3, 0, 1), (roles.MidChannel, roles.SideChannel, roles.LeftChannel, roles.RightChannel));
    }

    [Fact]
    public void AMonoTakeHasNoSide() => Assert.Null(Decide([Track("", "")]).SideChannel);

    [Fact]
    public void APairThatSaysLeftAndRightIsPointedOut() =>
        Assert.True(Decide([Track("Left", ""), Track("Right", "")]).SaysLeftRight);

    [Theory]
    [InlineData(3, 1)]
    [InlineData(0, 1)]
    [InlineData(2, 2)]
    public void ChannelsThatDoNotExistAreRefused(int mid, int side) =>
        Assert.Throws<JobException>(() => Decide([Track("", ""), Track("", "")], take: new(mid, side, null)));

    private static RoleAssignment Decide(TakeTrack[] tracks, RoleSettings? take = null, RoleSettings? session = null) =>
        RoleReader.Decide(tracks, tracks.Length, take ?? RoleSettings.None, session ?? RoleSettings.None);

    private static TakeTrack Track(string name, string function) => new(name, function, "take.wav");
}
