using Athwart.Jobs.Deliver.Manifests;

namespace Athwart.Jobs.Deliver;

/// <summary>What was delivered.</summary>
/// <param name="Folder">The delivery's folder, a full path.</param>
/// <param name="ReportPath">The report to open.</param>
/// <param name="Manifest">Every file with its hash.</param>
/// <param name="Effects">How many effects.</param>
public sealed record DeliverReport(string Folder, string ReportPath, Manifest Manifest, int Effects);
