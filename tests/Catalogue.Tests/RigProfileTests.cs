namespace Athwart.Catalogue.Tests;

public sealed class RigProfileTests : IDisposable
{
    private readonly LibraryFixture _fixture = new();

    [Fact]
    public void ProfilesOfARig_ComeBackOldestFirst_WhateverTheCaseOfItsName()
    {
        var (may, march, other) = (Profile("blimp", 5), Profile("Blimp", 3), Profile("stick", 4));
        foreach (var profile in (RigProfile[])[may, march, other])
            _fixture.Library.AddRigProfile(profile);

        Assert.Equal([march, may], _fixture.Library.RigProfiles("BLIMP"));
        Assert.Equal(3, _fixture.Library.RigProfiles().Count);
    }

    [Fact]
    public void ASession_HasTheProfileLastAttached()
    {
        var session = _fixture.Library.AddSession(new() { Name = "Lock", Date = new(2026, 5, 14) });
        var (first, second) = (Profile("blimp", 3), Profile("blimp", 5));
        _fixture.Library.AddRigProfile(first);
        _fixture.Library.AddRigProfile(second);
        Assert.Null(_fixture.Library.RigProfileOf(session.Id));

        _fixture.Library.AttachRigProfile(session.Id, first.Id);
        _fixture.Library.AttachRigProfile(session.Id, second.Id);

        Assert.Equal(second, _fixture.Library.RigProfileOf(session.Id));
    }

    public void Dispose() => _fixture.Dispose();

    private static RigProfile Profile(string rig, int month) => new() { Rig = rig, Measured = new(2026, month, 1), Version = 1, Json = "{}" };
}
