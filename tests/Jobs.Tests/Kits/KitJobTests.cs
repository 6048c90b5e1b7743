using Athwart.Catalogue;
using Athwart.Jobs.Kits;
using Athwart.Microphones.Equipment;
using Athwart.Microphones.Patterns;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.Kits;

public sealed class KitJobTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private string Lib => _folder.File("lib");

    [Fact]
    public void TheDemoKit_IsPlausible_AndHoldsWhatItPromises()
    {
        var report = KitListJob.Describe(DemoKit.Kit);
        Assert.Empty(report.Unusual);
        Assert.Empty(report.Shortfalls);
        Assert.NotEmpty(report.Gaps);
        Assert.True(report.Kit.Microphones.Count >= 14);
        Assert.Equal((3, 3), (report.Kit.Recorders.Count, report.Kit.Protections.Count));
        Assert.Contains(report.Kit.Recorders, r => r.DecodesForMonitoring == false);
        Assert.Contains(report.Kit.Microphones, m => m.Count == 2);
        Assert.Contains(report.Kit.Microphones, m => m.Settings.Any(s => s.Pattern is TabulatedPattern));
        Assert.Contains(report.Kit.Microphones, m => m.Settings.Count > 1 && KitGaps.CanBeSide(m));
        var sides = report.Kit.Microphones.Where(KitGaps.CanBeSide).ToList();
        Assert.InRange(sides.Count, 3, 5);
        Assert.True(sides.Where(s => s.Price is not null).Average(s => s.Price!.Value.Amount) > report.Kit.Microphones.Where(m => m.Price is not null && !KitGaps.CanBeSide(m)).Average(m => m.Price!.Value.Amount));
    }

    [Fact]
    public void WhatIsImported_IsInTheLibrary_AsItWas()
    {
        var report = KitImportJob.Run(new() { Library = Lib, Demo = true });
        Assert.True(report.Done);
        Assert.Equal(22, report.Added.Count);
        Assert.Equal(KitJson.Write(DemoKit.Kit), KitJson.Write(KitStore.Load(Lib)));
    }

    [Fact]
    public void ExportThenImport_OfJsonAndOfCsv_GivesTheSameKit()
    {
        KitImportJob.Run(new() { Library = Lib, Demo = true });
        var whole = KitJson.Write(DemoKit.Kit);
        foreach (var target in new[] { _folder.File("kit.json"), _folder.File("csv") })
        {
            var other = _folder.File("other-" + Path.GetFileName(target));
            KitExportJob.Run(new(Lib, target, Overwrite: false));
            Assert.True(KitImportJob.Run(new() { Library = other, Paths = [target] }).Done);
            Assert.Equal(whole, KitJson.Write(KitStore.Load(other)));
            Assert.Equal(JobErrorKind.Refused, Assert.Throws<JobException>(() => KitExportJob.Run(new(Lib, target, Overwrite: false))).Kind);
            KitExportJob.Run(new(Lib, target, Overwrite: true));
        }
    }

    [Fact]
    public void OneFaultInOneOfSeveralFiles_KeepsAllOfThemOut()
    {
        var good = Write("good.csv", "name,pattern\nC1,omni\n");
        var bad = Write("bad.csv", "name,inputs\nR,0\n");
        var report = KitImportJob.Run(new() { Library = Lib, Paths = [good, bad] });
        Assert.False(report.Done);
        Assert.Equal((bad, 2, "inputs"), (Assert.Single(report.Faults).Place.File, report.Faults[0].Place.Row, report.Faults[0].Place.Column));
        Assert.False(Directory.Exists(Lib));
    }

    [Fact]
    public void ANameInTwoFiles_IsRefused() => Assert.Contains(
        "taken already",
        Assert.Single(KitImportJob.Run(new() { Library = Lib, Paths = [Write("a.csv", "name,inputs\nR,2\n"), Write("b.csv", "name,inputs\nR,4\n")] }).Faults).Message,
        StringComparison.Ordinal);

    [Fact]
    public void WhatIsThereAlready_IsReplacedOnlyWhenAsked_AndStaysInItsPlace()
    {
        Import("name,pattern,noise dBA\nÄther,omni,14\nC2,omni,15\n");
        var again = Write("again.csv", "name,pattern,noise dBA\näther,omni,20\nC3,omni,16\n");
        var refused = KitImportJob.Run(new() { Library = Lib, Paths = [again] });
        Assert.Equal(["äther"], refused.AlreadyThere, StringComparer.Ordinal);
        Assert.False(refused.Done);
        Assert.Equal(2, KitStore.Load(Lib).Microphones.Count);

        var replaced = KitImportJob.Run(new() { Library = Lib, Paths = [again], Replace = true });
        Assert.Equal((true, "äther", "C3"), (replaced.Done, Assert.Single(replaced.Replaced), Assert.Single(replaced.Added)));
        Assert.Equal("äther 20, C2 15, C3 16", string.Join(", ", KitStore.Load(Lib).Microphones.Select(m => $"{m.Name} {m.Settings[0].EquivalentNoiseDecibelsA}")));
    }

    [Fact]
    public void AnotherPattern_IsAddedToAMicrophone()
    {
        Import("name,label,pattern\nM,wide,omni\n");
        var eight = new MicrophoneSetting { Label = "eight", Pattern = FirstOrderPattern.FigureEight };
        Assert.True(KitImportJob.AddSetting(Lib, "m", eight).Done);
        Assert.Equal(["wide", "eight"], KitStore.Load(Lib).Microphones[0].Settings.Select(s => s.Label), StringComparer.Ordinal);
        Assert.Contains("twice", Assert.Single(KitImportJob.AddSetting(Lib, "M", eight).Faults).Message, StringComparison.Ordinal);
        Assert.Contains("The nearest is 'M'", Assert.Throws<JobException>(() => KitImportJob.AddSetting(Lib, "N", eight)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Remove_TakesAllOrNothing_AndAsksWhichKind()
    {
        Import("name,pattern\nsmall,omni\nother,omni\n");
        Import("name,inputs\nsmall,2\n");
        Assert.Contains("'recorder:small'", Assert.Throws<JobException>(() => KitRemoveJob.Run(Lib, ["other", "small"])).Message, StringComparison.Ordinal);
        Assert.Equal(2, KitStore.Load(Lib).Microphones.Count);
        Assert.Equal(["small", "other"], KitRemoveJob.Run(Lib, ["Recorder:Small", "OTHER"]), StringComparer.Ordinal);
        Assert.Empty(KitStore.Load(Lib).Recorders);
        Assert.Contains("The nearest is 'small'", Assert.Throws<JobException>(() => KitRemoveJob.Run(Lib, ["smal"])).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void CurrenciesThatDiffer_StayApart_AndTwoOfAKindCostTwice()
    {
        Import("name,pattern,price,currency,count,owned\nA,omni,100,EUR,2,yes\nB,omni,50,USD,1,yes\nC,omni,1,USD,1,no\n");
        var report = KitListJob.Run(Lib);
        Assert.Equal([new(200, "EUR"), new(50, "USD")], report.Owned);
        Assert.Equal([new(1, "USD")], report.Considered);
    }

    [Fact]
    public void AnOlderOrEmptyLibrary_HasAnEmptyKit()
    {
        Library.Open(Lib, LibraryAccess.Create).Dispose();
        Assert.Equal(KitJson.Write(Kit.Empty), KitJson.Write(KitStore.Load(Lib)));
        Assert.Throws<LibraryException>(() => KitStore.Load(_folder.File("nowhere")));
    }

    [Fact]
    public void AThingThatTheLibraryHoldsDamaged_IsNamed_AndCanBeRemoved()
    {
        using (var library = Library.Open(Lib, LibraryAccess.Create))
            library.SaveKitItem(new("microphone", "broken", 1, "{\"name\":"));
        var error = Assert.Throws<JobException>(() => KitStore.Load(Lib));
        Assert.Equal(JobErrorKind.Storage, error.Kind);
        KitRemoveJob.Run(Lib, ["broken"]);
        Assert.Empty(KitStore.Load(Lib).Microphones);
    }

    [Fact]
    public void FilesThatAreNotThere_AreNamed()
    {
        Assert.Equal(JobErrorKind.WrongUse, Assert.Throws<JobException>(() => KitImportJob.Run(new() { Library = Lib, Paths = ["nowhere.csv"] })).Kind);
        Assert.Contains("holds no CSV", Assert.Throws<JobException>(() => KitImportJob.Run(new() { Library = Lib, Paths = [_folder.Path] })).Message, StringComparison.Ordinal);
        Assert.Contains(".xlsx", Assert.Throws<JobException>(() =>
        {
            Import("name,pattern\nA,omni\n");
            KitExportJob.Run(new(Lib, _folder.File("kit.xlsx"), false));
        }).Message, StringComparison.Ordinal);
    }

    public void Dispose() => _folder.Dispose();

    private string Write(string name, string text)
    {
        File.WriteAllText(_folder.File(name), text);
        return _folder.File(name);
    }

    private void Import(string csv) => Assert.Empty(KitImportJob.Run(new() { Library = Lib, Paths = [Write("import.csv", csv)] }).Faults);
}
