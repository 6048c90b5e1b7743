using Athwart.Figures;
using Athwart.Figures.Findings;

namespace Athwart.Jobs.Evidences;

/// <summary>Draws what a finding rests on.</summary>
internal static class EvidencePicture
{
    /// <summary>An svg element, in the view that shows this kind best.</summary>
    public static string Draw(EvidenceCase found) => Draw(found, EvidenceViews.Of(found.Finding.Kind));

    /// <summary>Title and description of a picture.</summary>
    public static FigureLabel Label(EvidenceCase found) => new(found.Id, found.Finding.Kind, found.Finding.Message);

    private static string Draw(EvidenceCase found, EvidenceView view) => view switch
    {
        EvidenceView.Samples => SampleView.Draw(found, decoded: false),
        EvidenceView.DecodedSamples => SampleView.Draw(found, decoded: true),
        EvidenceView.Waves => TimeView.Waves(found),
        EvidenceView.Levels => TimeView.Levels(found),
        EvidenceView.Spectrogram => TimeView.Spectrogram(found),
        EvidenceView.Correlation => TimeView.Correlation(found),
        EvidenceView.Vector => TimeView.Vector(found),
        EvidenceView.Spectrum => SpectrumView.Draw(found, 20, found.Sound.SampleRateHertz / 2.0),
        EvidenceView.LowSpectrum => SpectrumView.Draw(found, 20, 700),
        EvidenceView.Thirds when ThirdsView.Has(found.Finding) => ThirdsView.Draw(found),
        EvidenceView.Lag => LagView.Draw(found),
        EvidenceView.Distribution => DistributionView.Draw(found),
        EvidenceView.File when found.File is { } file => FileView.Draw(found, file),
        EvidenceView.Siblings when found.Siblings.Count > 1 => SiblingsView.Draw(found),
        _ => NumbersFigure.Draw(Label(found), found.Finding.Kind, [.. found.Finding.Evidence.Select(e => new FindingNumber(e.Name, e.Value, e.Unit))]),
    };
}
